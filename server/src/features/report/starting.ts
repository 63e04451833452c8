import type { StageAnalysis } from '../../analysis/analysis.ts';
import { capital, withSpread } from '../../analysis/figure-words.ts';
import { injectorFlow, injectorPressure } from '../../analysis/full-load-injection.ts';
import { idleAir, idleFuel } from '../../analysis/idle.ts';
import { idlePulse } from '../../analysis/idle-injection.ts';
import { deadTimes } from '../../analysis/injectors.ts';
import type { FigureNode } from '../../analysis/node.ts';
import { coldStart, startingMap } from '../../analysis/starting.ts';
import { cruiseTiming, fullLoadTiming, idleTiming } from '../../analysis/timing.ts';
import { readDeadTime } from '../../engineering/dead-time.ts';
import { type Block, type Page, paragraph } from '../../report/page.ts';
import type { Plot } from '../../report/plot.ts';
import { echo } from '../../text/echo.ts';
import { formatValue, type Units } from '../../units/format.ts';
import type { Dimension } from '../../units/units.ts';

type Plan = readonly StageAnalysis[];

/** Said wherever starting settings are shown. */
const STARTING_CAUTION =
  'A starting point for whoever tunes the engine, never a finished tune: mixture and spark are set on the running engine, by someone with experience, with a wide-range oxygen sensor and an ear or a sensor for knock.';

const VOLTS = [8, 10, 12, 13, 14, 15];

/** What each setting stands on. */
const settings: readonly { node: FigureNode; reason: string }[] = [
  { node: injectorFlow, reason: 'what the computer is told the injectors flow, at the pressure below' },
  { node: injectorPressure, reason: 'set pressure less what stands at the tip' },
  { node: idleAir, reason: 'what the idle-air valve or the plate stop has to let through, engine warm' },
  { node: idleFuel, reason: 'idle air at lambda 1' },
  { node: idlePulse, reason: 'the pulse to see at idle, dead time counted in' },
  { node: idleTiming, reason: 'common practice' },
  { node: cruiseTiming, reason: 'common practice' },
  {
    node: fullLoadTiming,
    reason: 'common practice, capped by the knock-limited spark of the hottest day where it is known',
  },
];

/** The settings to begin tuning from, with what they stand on. */
export function startingPage(plan: Plan, units: Units): Page {
  const show = (value: number, dimension: Dimension) => formatValue(value, dimension, units);
  const rows = settings.flatMap(({ node, reason }) => {
    const found = plan.map((stage) => stage.estimate(node));
    if (found.every((one) => one === undefined)) return [];
    return [[capital(node.name), ...found.map((one) => (one ? withSpread(one, show) : '-')), reason]];
  });
  const first = plan[0];
  if (!first || rows.length === 0) return [];
  const head = ['setting', ...plan.map(({ name }) => echo(name)), 'reason'];
  return [
    paragraph({ strong: STARTING_CAUTION }),
    { kind: 'table', head, rows },
    ...deadTimeTable(first, show),
    ...coldTable(first, show),
    ...plan.flatMap((stage) => mixtureTable(stage, show)),
    paragraph({ strong: STARTING_CAUTION }),
  ];
}

/** How a dead time is known. */
const TRUST = { measured: 'the sheet says it', estimated: 'estimated from it', unknown: '-' } as const;

type Show = (value: number, dimension: Dimension) => string;

function deadTimeTable(stage: StageAnalysis, show: Show): Block[] {
  const points = stage.know(deadTimes);
  if (!points) return [];
  const rows = VOLTS.map((voltage) => {
    const { deadTime, trust } = readDeadTime(voltage, points);
    return [show(voltage, 'voltage'), trust === 'unknown' ? 'not known' : show(deadTime, 'time'), TRUST[trust]];
  });
  return [
    paragraph({ strong: 'Dead time over voltage' }),
    { kind: 'table', head: ['battery', 'dead time', 'how it is known'], rows },
  ];
}

function coldTable(stage: StageAnalysis, show: Show): Block[] {
  const known = stage.know(coldStart);
  if (!known) return [];
  const hasPulse = known.every(({ pulse }) => pulse !== undefined);
  const rows = known.map(({ coolant, mass, pulse, fired, fades, warming }) => [
    show(coolant, 'temperature'),
    `${Math.round(mass * 1e6)} mg`,
    ...(hasPulse ? [show(pulse ?? 0, 'time')] : []),
    `${added(fired)}, gone after ${fades} s`,
    added(warming),
  ]);
  return [
    paragraph(
      { strong: 'Starting and warming up' },
      '. The first fuel at key-on is that of one cycle, once. Factors are common practice, from memory; alcohol wants more.',
    ),
    {
      kind: 'table',
      head: [
        'coolant',
        'fuel of one cycle',
        ...(hasPulse ? ['pulse while cranking'] : []),
        'added once it fires',
        'added while cold',
      ],
      rows,
    },
  ];
}

function added(factor: number): string {
  return `${Math.round((factor - 1) * 100)} %`;
}

/** Mixture by manifold pressure, and spark at three speeds. */
function mixtureTable(stage: StageAnalysis, show: Show): Block[] {
  const map = stage.know(startingMap);
  if (!map) return [];
  const speeds = [...new Set(map.map(({ speed }) => speed))];
  const shown = [...new Set([0.25, 0.5, 1].map((share) => speeds[Math.round(share * (speeds.length - 1))]))];
  const rows = [...new Set(map.map(({ pressure }) => pressure))].map((pressure) => {
    const here = map.filter((point) => point.pressure === pressure);
    const at = (speed: number | undefined) => here.find((point) => point.speed === speed);
    return [
      `${Math.round(pressure / 1e3)} kPa`,
      at(shown.at(-1))?.lambda.toFixed(2) ?? '-',
      ...shown.map((speed) => `${Math.round(at(speed)?.spark ?? 0)} deg`),
    ];
  });
  const head = [
    'manifold pressure',
    'lambda',
    ...shown.map((speed) => `spark at ${show(speed ?? 0, 'rotational-speed')}`),
  ];
  return [paragraph({ strong: `Mixture and spark, ${echo(stage.name)}` }), { kind: 'table', head, rows }];
}

/** Spark to start from and knock-limited spark over speed at full load. */
export function sparkPlots(plan: Plan): Plot[] {
  return plan.flatMap((stage): Plot[] => {
    const map = stage.know(startingMap);
    if (!map) return [];
    const highest = Math.max(...map.map(({ pressure }) => pressure));
    const full = map.filter(({ pressure }) => pressure === highest);
    const limited = full.flatMap(({ speed, limited }) => (limited === undefined ? [] : [{ x: speed, y: limited }]));
    return [
      {
        kind: 'plot',
        title: `Spark over engine speed at full load, ${echo(stage.name)}`,
        description: 'The spark to start from, and the knock-limited spark on the hottest day where it is known.',
        x: { name: 'engine speed', dimension: 'rotational-speed' },
        y: { name: 'spark before top dead center', dimension: 'angle' },
        lines: [
          { name: 'to start from', points: full.map(({ speed, spark }) => ({ x: speed, y: spark })) },
          ...(limited.length ? [{ name: 'knock-limited', points: limited }] : []),
        ],
        marks: [],
      },
    ];
  });
}
