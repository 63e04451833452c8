import type { Situation, StageRule } from '../rule.ts';

export const rule: StageRule = {
  id: 'ignition/ballast',
  title: 'Ballast in the feed of an electronic ignition',
  severity: 'warning',
  why: 'A ballast was made to spare contact points. Most electronic drivers want full battery voltage to charge the coil in time, and behind a ballast the spark is weak at high speed. Some old modules were made to work with one: ask the maker of the module before you take it out. Whatever else hangs on that wire, such as the computer, browns out.',
  inspect:
    'Look for a ceramic block on the firewall or a resistance wire in the harness. Meter on the coil feed, key in run: less than the battery has is a ballast.',
  remedy:
    'Where the module does not ask for it, feed the coil from the key by a wire of its own, and let the computer never share it.',
  source: "common practice; Ohm's law",
  check: (situation) => {
    const { ignition } = situation.values;
    if (!ignition || ignition.trigger === 'contact-points') return undefined;
    const { supply, coil } = ignition;
    const isInFeed = supply === 'ballast-resistor' || supply === 'resistance-wire';
    const ballast = coil?.ballast && coil.ballast.value > 0 ? coil.ballast : undefined;
    if (!isInFeed && !ballast) return undefined;
    const what = supply === 'resistance-wire' ? 'resistance wire' : 'ballast resistor';
    return {
      at: isInFeed ? 'ignition.supply' : 'ignition.coil.ballast',
      message: `A ${what}${ballast ? ` of ${situation.show(ballast)}` : ''} stands in the coil feed${whatIsLeft(situation)}.`,
      repairs: [
        {
          title:
            supply === 'resistance-wire'
              ? 'Run a new full-voltage wire to the coil'
              : 'Take the ballast out and feed the coil with full voltage',
          ...(isInFeed ? { set: { 'ignition.supply': 'full-voltage' } } : {}),
          ...(ballast ? { remove: ['ignition.coil.ballast'] } : {}),
          ...(ignition.driver === 'capacitive-discharge' ? {} : { shows: 'coil-voltage' }),
        },
      ],
    };
  },
};

/** What a coil on battery current has left; a box makes its own voltage. */
function whatIsLeft({ values: { ignition }, figure, show, showValue }: Situation): string {
  const voltage = figure('coil-voltage');
  if (!voltage || ignition?.driver === 'capacitive-discharge') return '';
  const assumed = voltage.inputs.find(({ symbol, assumed }) => symbol === 'R_b' && assumed);
  const it = assumed ? `a usual one of ${showValue(assumed.value, 'resistance')}` : 'it';
  return `; ${it} leaves the coil ${show(voltage)} and at most ${show(figure('coil-current-steady'))}`;
}
