import { ballast, ballastHeat, coilVoltage, steadyCoilCurrent } from '../../analysis/ignition.ts';
import type { Situation, StageRule } from '../../checking/rule.ts';
import { fullVoltage } from '../../remedies/full-voltage.ts';

export const rule: StageRule = {
  id: 'ignition/ballast',
  title: 'Ballast in the feed of an electronic ignition',
  severity: 'information',
  why: 'A ballast was made to spare contact points. Many electronic drivers want full battery voltage to charge the coil in time; some modules were made to work with a ballast, and some coils have one built in: ask the maker of the module before you take it out. A coil that was made for a ballast burns without one, unless something limits its current. Whatever else hangs on that wire, such as the computer, browns out.',
  inspect:
    'Look for a ceramic block on the firewall or a resistance wire in the harness. Meter on the coil feed, key in run: less than battery voltage there means a ballast.',
  remedy:
    'Where the module does not ask for it, feed the coil from the key by a wire of its own, with a coil the module can limit, and let the computer never share it.',
  source: "common practice; Ohm's law",
  check: (situation) => {
    const { ignition } = situation.values;
    if (!ignition || ignition.trigger === 'contact-points') return undefined;
    const { supply, coil } = ignition;
    const isInFeed = supply === 'ballast-resistor' || supply === 'resistance-wire';
    const own = coil?.ballast && coil.ballast.value > 0 ? coil.ballast : undefined;
    if (!isInFeed && !own) return undefined;
    const what = supply === 'resistance-wire' ? 'resistance wire' : 'ballast resistor';
    const shows = ignition.driver === 'capacitive-discharge' ? undefined : coilVoltage;
    return {
      at: isInFeed ? 'ignition.supply' : 'ignition.coil.ballast',
      message: `A ${what}${own ? ` of ${situation.show(own)}` : ''} stands in the coil feed${whatIsLeft(situation)}.`,
      repairs: fullVoltage(situation, shows),
    };
  },
};

/** What a coil on battery current has left; a box makes its own voltage. */
function whatIsLeft({ values: { ignition }, see, know, show, showValue }: Situation): string {
  const voltage = see(coilVoltage);
  if (!voltage || ignition?.driver === 'capacitive-discharge') return '';
  const usual = ignition?.coil?.ballast ? undefined : know(ballast);
  const it = usual === undefined ? 'it' : `a usual one of ${showValue(usual, 'resistance')}`;
  return `; ${it} leaves the coil ${show(voltage)} and at most ${show(see(steadyCoilCurrent))}, and gets ${show(see(ballastHeat))} of heat`;
}
