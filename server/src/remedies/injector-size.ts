import { requiredStaticFlowColdest } from '../analysis/coldest-day.ts';
import { highestSpeed } from '../analysis/engine.ts';
import { demandPerInjector, injectorFlow } from '../analysis/full-load-injection.ts';
import { idlePulse } from '../analysis/idle-injection.ts';
import { deadTime, dutyLimit, pulsesPerCycle } from '../analysis/injectors.ts';
import type { FigureNode } from '../analysis/node.ts';
import type { Repair, Situation } from '../checking/rule.ts';
import type { Quantity } from '../units/quantity.ts';
import { sharing } from './sharing.ts';
import { preferredSizes, roundedUp, type Size } from './size.ts';

/** Duty in the hungriest stage that injectors are chosen for. Common practice. */
const CHOSEN_DUTY = { low: 0.6, high: 0.75 } as const;

/** Pulse at idle over the shortest repeatable one that injectors are chosen for. Common practice. */
const CHOSEN_IDLE = 1.25;

/** Duty that dead time takes away at full speed, about, where it is not known. Common practice, from memory. */
const DEAD_SHARE = 0.1;

const FIELD = 'throttle-body.injectors.static-flow';

/** At least one preferred number lies between a size and this part of it. */
const STEP = 1.15;

/** A range of static flow, kg/s at the rated pressure. */
type Flows = { least: number; most: number };

/**
 * Injectors in the middle of what the stages that share them ask: 60 to 75 % duty in the hungriest and a pulse at idle of
 * 1.25 of the shortest repeatable in all. Where the stages leave no such size, the middle of what is just allowed, which
 * the title says; nothing where no size does it.
 */
export function fittingInjectors(situation: Situation, shows?: FigureNode): Repair[] {
  const flow = situation.values['throttle-body']?.injectors?.['static-flow'];
  if (!flow) return [];
  const stages = sharing(situation.plan, situation.index, FIELD);
  const hungriest = most(stages, (stage) => flowAtDuty(stage, flow, CHOSEN_DUTY.low));
  const chosen = {
    least: most(stages, (stage) => Math.max(flowAtDuty(stage, flow, CHOSEN_DUTY.high), flowForColdest(stage, flow))),
    most: Math.min(
      hungriest || Number.POSITIVE_INFINITY,
      ...stages.map((stage) => flowThatIdles(stage, flow, CHOSEN_IDLE)),
    ),
  };
  const allowed = {
    least: most(stages, (stage) =>
      Math.max(flowAtDuty(stage, flow, stage.know(dutyLimit) ?? CHOSEN_DUTY.high), flowForColdest(stage, flow)),
    ),
    most: Math.min(...stages.map((stage) => flowThatIdles(stage, flow, 1))),
  };
  const size = middle(chosen, flow);
  if (size) return [repairWith(situation, size.text, '', shows)];
  const tight = middle(allowed, flow)?.text ?? between(allowed, flow);
  return tight ? [repairWith(situation, tight, ', the middle of what full power and idle allow', shows)] : [];
}

function repairWith({ values }: Situation, size: string, note: string, shows: FigureNode | undefined): Repair {
  const rated = values['throttle-body']?.injectors?.['rated-pressure'];
  const title = `Fit injectors of ${size}${rated ? ` at ${rated.text}` : ''}${note}`;
  return { title, set: { [FIELD]: size }, ...(shows && { shows }) };
}

function most(stages: readonly Situation[], of: (stage: Situation) => number): number {
  return Math.max(...stages.map(of));
}

/** Rated flow at which a stage runs at a duty, kg/s; zero where the stage asks nothing of them. */
function flowAtDuty({ see, know }: Situation, rated: Quantity, duty: number): number {
  const [need, has] = [see(demandPerInjector), see(injectorFlow)];
  if (!need || !has) return 0;
  const [dead, speed, pulses] = [see(deadTime), know(highestSpeed), know(pulsesPerCycle)];
  const deadShare = dead && speed && pulses ? ((dead.high ?? dead.value) * pulses * speed) / 2 : DEAD_SHARE;
  const open = duty - deadShare;
  return open > 0 ? (rated.value * (need.high ?? need.value)) / (has.low ?? has.value) / open : 0;
}

/** Rated flow that is enough for the coldest, lowest day, kg/s; zero where that is not known. */
function flowForColdest({ see }: Situation, rated: Quantity): number {
  const [need, has] = [see(requiredStaticFlowColdest), see(injectorFlow)];
  return need && has ? (rated.value * (need.high ?? need.value)) / (has.low ?? has.value) : 0;
}

/** Largest rated flow, kg/s, whose pulse at idle is so many times the shortest; without end where idle is not known. */
function flowThatIdles({ see, values }: Situation, rated: Quantity, times: number): number {
  const [pulse, dead] = [see(idlePulse), see(deadTime)];
  const shortest = values['throttle-body']?.injectors?.['shortest-pulse'];
  if (!pulse || !dead || !shortest) return Number.POSITIVE_INFINITY;
  const open = times * shortest.high - dead.value;
  return open > 0 ? (rated.value * ((pulse.low ?? pulse.value) - dead.value)) / open : Number.POSITIVE_INFINITY;
}

/** The preferred size nearest the middle of a range, if there is one in it; the largest, where nothing says how small it may be. */
function middle({ least, most: highest }: Flows, like: Quantity): Size | undefined {
  if (!Number.isFinite(highest) || highest < least) return undefined;
  if (least === 0) return preferredSizes(highest / STEP, highest, like).at(-1);
  const aim = Math.log(Math.sqrt(least * highest));
  const away = ({ value }: Size) => Math.abs(Math.log(value) - aim);
  return preferredSizes(least, highest, like).toSorted((one, other) => away(one) - away(other))[0];
}

/** A round figure in the middle of a range that holds no preferred size. */
function between({ least, most: highest }: Flows, like: Quantity): string | undefined {
  if (!(least > 0 && highest > least && Number.isFinite(highest))) return undefined;
  return roundedUp(Math.sqrt(least * highest) * (1 - 1e-9), like);
}
