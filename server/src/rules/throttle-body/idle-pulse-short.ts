import { idlePulse, idlePulseMargin, powerCoveredLow } from '../../analysis/idle-injection.ts';
import { deadTime } from '../../analysis/injectors.ts';
import { idling } from '../../analysis/operating-points.ts';
import { idleRailPressure } from '../../analysis/supply.ts';
import { below, type Repair, type Situation, type StageRule } from '../../checking/rule.ts';
import { slowerFiring } from '../../remedies/firing.ts';
import { fittingInjectors } from '../../remedies/injector-size.ts';
import { usualSettings } from '../../remedies/regulator-setting.ts';
import { widerReturn } from '../../remedies/wider-return.ts';

/** Rail pressure below which fuel boils in a hot engine bay and sprays badly: 30 psi (Pa). Common practice. */
const LEAST_PRESSURE = 207e3;

export const rule: StageRule = {
  id: 'throttle-body/idle-pulse-short',
  title: 'Injectors too big to idle',
  severity: 'error',
  why: 'Below its shortest repeatable pulse an injector sometimes gives more fuel and sometimes less: the engine hunts, loads up and fouls plugs at idle, and no tuning cures it. Power range has two ends, and this is the lower one.',
  inspect: 'Log the pulse at warm idle: below the shortest repeatable one the mixture wanders whatever the table says.',
  remedy: 'Smaller injectors where the later stages allow it, fewer and longer pulses, or less pressure.',
  source: 'kinematics of the four-stroke cycle; air at idle: Heywood (1988), eq. 2.27, with figures of common practice',
  check: (situation) => {
    const { see, values, stage, show, compare } = situation;
    const shortest = values['throttle-body']?.injectors?.['shortest-pulse'];
    const pulse = see(idlePulse);
    const dead = see(deadTime);
    const miss = below(see(idlePulseMargin), 1);
    if (!shortest || !pulse || !dead || !miss) return undefined;
    const covered = see(powerCoveredLow);
    const share = ((pulse.low ?? pulse.value) - dead.value) / (shortest.high - dead.value);
    const isLifted = situation.know(idling)?.regulation === 'backed-up';
    const shown = compare(pulse, shortest.value);
    const lifted = isLifted ? ` The return line lifts the rail to ${show(see(idleRailPressure))} at idle.` : '';
    return {
      at: 'throttle-body.injectors',
      message: `The pulse at idle is ${shown.value}, under the ${shown.limit} these injectors can repeat${covered ? `; they suit an engine of ${show(covered)} and more` : ''}.${lifted}`,
      related: [
        { at: 'engine.idle', message: 'At this idle.' },
        ...(stage.power ? [{ at: 'stages.power' as const, message: 'The power to cover.' }] : []),
      ],
      ...miss,
      repairs: [
        ...(isLifted ? widerReturn(situation, idlePulse) : []),
        ...fittingInjectors(situation, idlePulse),
        ...slowerFiring(situation, share),
        ...lessPressure(situation, share),
      ],
    };
  },
};

/** The same injectors at a usual pressure at which they still idle. */
function lessPressure({ values }: Situation, share: number): Repair[] {
  const setting = values['fuel-system']?.regulator?.pressure;
  if (!setting) return [];
  const most = setting.value * share ** 2;
  const lower = usualSettings(values).filter(({ value }) => value <= most && value >= LEAST_PRESSURE);
  return lower.slice(0, 1).map(({ text }) => ({
    title: `Set the regulator to ${text}`,
    set: { 'fuel-system.regulator.pressure': text },
    shows: idlePulse,
  }));
}
