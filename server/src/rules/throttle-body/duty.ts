import { highestSpeed } from '../../analysis/engine.ts';
import type { Estimate } from '../../analysis/figure.ts';
import { capital } from '../../analysis/figure-words.ts';
import {
  dutyAtPeakPower,
  dutyAtRedline,
  injectorPressure,
  pressureForRequiredFlow,
  requiredStaticFlow,
} from '../../analysis/full-load-injection.ts';
import { deadTime, pulsesPerCycle } from '../../analysis/injectors.ts';
import type { FigureNode } from '../../analysis/node.ts';
import { railPressureSet } from '../../analysis/regulator.ts';
import { railBehindFeedFigure } from '../../analysis/supply.ts';
import { above, type Repair, type Situation, type StageRule } from '../../checking/rule.ts';
import { boresAbove } from '../../remedies/bore.ts';
import { slowerFiring } from '../../remedies/firing.ts';
import { fittingInjectors } from '../../remedies/injector-size.ts';
import { usualSettings } from '../../remedies/regulator-setting.ts';

/** Pressure up to which injectors are used over their rated pressure. Common practice: half as much again. */
const MOST_PRESSURE = 1.5;

export const rule: StageRule = {
  id: 'throttle-body/duty',
  title: 'Injector duty cycle over the limit',
  severity: 'error',
  capacity: true,
  why: 'Near full duty the injector no longer closes in time and the mixture turns lean at full power, where lean burns pistons. What is left of the duty is also the reserve for a cold day or a richer fuel.',
  inspect: 'Log the duty cycle at full load up to redline, and the rail pressure with it.',
  remedy:
    'Larger injectors, more pressure while pump, hoses and injectors stand it, or fewer pulses for each cycle where the computer can.',
  source: 'common practice: 85 %; kinematics of the four-stroke cycle',
  check: (situation) => {
    const { see, limit, show, values } = situation;
    const own = values['throttle-body']?.injectors?.['largest-duty'];
    const most = own?.value ?? limit('largest-duty');
    const [atPeak, atRedline] = [see(dutyAtPeakPower), see(dutyAtRedline)];
    const isAtRedline = (atRedline?.value ?? 0) > (atPeak?.value ?? 0);
    const worst = isAtRedline ? atRedline : atPeak;
    const duty = isAtRedline ? dutyAtRedline : dutyAtPeakPower;
    const miss = above(worst, most);
    if (!worst || !miss) return undefined;
    const required = see(requiredStaticFlow);
    const across = see(injectorPressure);
    const slower = slowerFiring(situation, 1 / 2);
    return {
      at: 'throttle-body.injectors',
      message: `${overTheLimit(situation, worst, most, miss.onlyAtBadEnd)}${required ? ` Each injector needs ${show(required)}${across ? ` at ${show(across)}` : ''}.` : ''}${feedTakes(situation)}`,
      related: [{ at: 'stages.power', message: 'The power of this stage asks for it.' }],
      ...miss,
      repairs: [
        ...widerFeed(situation, duty),
        ...(isDeadTimeTheCause(situation) ? slower : []),
        ...fittingInjectors(situation, duty),
        ...morePressure({ see, values }, duty),
        ...(isDeadTimeTheCause(situation) ? [] : slower),
      ],
    };
  },
};

/** A duty of more than the whole time is no duty: the injectors need longer than there is. */
function overTheLimit({ compare }: Situation, duty: Estimate, most: number, onlyAtBadEnd: boolean): string {
  const { value, limit } = compare(duty, most);
  if (duty.value > 1) {
    const when = duty.name.replace('duty cycle at ', '');
    const times = Number(duty.value.toPrecision(2));
    const need = times > 1 ? `about ${times} times the time there is` : 'all the time there is';
    return `At ${when} the injectors need ${need}; the limit is ${limit} of it.`;
  }
  return `${capital(duty.name)} is ${value}, ${onlyAtBadEnd ? 'which can pass' : 'over'} the limit of ${limit}.`;
}

/** Share of the time that dead times may take before too many pulses are the cause. Common practice, from memory. */
const DEAD_SHARE = 0.2;

function isDeadTimeTheCause({ see, know }: Situation): boolean {
  const [dead, pulses, speed] = [see(deadTime), know(pulsesPerCycle), know(highestSpeed)];
  return (
    dead !== undefined && pulses !== undefined && speed !== undefined && (dead.value * pulses * speed) / 2 > DEAD_SHARE
  );
}

/** Share of the set pressure that a feed line may take behind a regulator in the tank before it is the cause. */
const NOTABLE = 0.1;

/** What the feed line takes, Pa, of what a regulator in the tank holds, where that is much. */
function lostInFeed({ see }: Pick<Situation, 'see'>): number | undefined {
  const [set, rail] = [see(railPressureSet), see(railBehindFeedFigure)];
  const lost = set && rail ? set.value - rail.value : 0;
  return set && lost > NOTABLE * set.value ? lost : undefined;
}

function feedTakes(situation: Situation): string {
  const lost = lostInFeed(situation);
  if (lost === undefined) return '';
  const { see, show, showValue } = situation;
  return ` The way from the regulator in the tank takes ${showValue(lost, 'pressure')} of its ${show(see(railPressureSet))}.`;
}

/** A wider line from the regulator in the tank, where that line takes much of the pressure. */
function widerFeed(situation: Situation, shows: FigureNode): Repair[] {
  const bore = situation.values['fuel-system']?.feed?.['inside-diameter'];
  if (!bore || lostInFeed(situation) === undefined) return [];
  return boresAbove(bore)
    .slice(0, 2)
    .map((next) => ({
      title: `Run a feed line of ${next}`,
      set: { 'fuel-system.feed.inside-diameter': next },
      shows,
    }));
}

/** The same injectors at a usual pressure that gives the required flow, while that is near their rating. */
function morePressure({ see, values }: Pick<Situation, 'see' | 'values'>, shows: FigureNode): Repair[] {
  const setting = values['fuel-system']?.regulator?.pressure;
  const rated = values['throttle-body']?.injectors?.['rated-pressure'];
  const [across, needed] = [see(injectorPressure), see(pressureForRequiredFlow)];
  if (!setting || !rated || !across || !needed) return [];
  const least = setting.value + (needed.high ?? needed.value) - across.value;
  const higher = usualSettings(values).filter(({ value }) => value >= least && value <= rated.value * MOST_PRESSURE);
  return higher.slice(0, 1).map(({ text }) => ({
    title: `Set the regulator to ${text}, if pump, hoses and injectors stand it`,
    set: { 'fuel-system.regulator.pressure': text },
    shows,
  }));
}
