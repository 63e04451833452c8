import type { StageAnalysis } from '../analysis/analysis.ts';
import { isKnown } from '../analysis/figure.ts';
import { capital, withSpread } from '../analysis/figure-words.ts';
import { figureNamed } from '../analysis/figures.ts';
import { pumps } from '../analysis/fuel-network.ts';
import { dutyOverSpeed } from '../analysis/full-load-injection.ts';
import { limit } from '../analysis/node.ts';
import { pumpPressure, requiredDelivery } from '../analysis/supply.ts';
import { cautions } from '../checking/cautions.ts';
import type { Checked } from '../checking/checked.ts';
import { pumpsFlow, zeroFlowPressureOf } from '../engineering/pump.ts';
import type { Headroom } from '../fit/headroom.ts';
import type { Needs } from '../fit/needs.ts';
import { headroomPage } from '../report/headroom-page.ts';
import type { Section } from '../report/html.ts';
import { type FigureRow, figureTable } from '../report/model.ts';
import { needsPage } from '../report/needs-page.ts';
import { type Block, type Page, paragraph, prose, type Span } from '../report/page.ts';
import type { Plot } from '../report/plot.ts';
import { echo } from '../text/echo.ts';
import { formatEnd } from '../units/format.ts';
import type { Dimension, System } from '../units/units.ts';
import type { AskedQuestion } from './questions.ts';

/** Points of a curve. */
const POINTS = 16;

/** Everything a report is made of, worked out before. */
export type Reported = {
  checked: Checked;
  needs: Needs;
  headroom: readonly Headroom[];
  questions: readonly AskedQuestion[];
};

/** A build on paper: what is planned, found, computed, needed, still open, assumed, and what to take care of. */
export function reportOf({ checked, needs, headroom, questions }: Reported): Section[] {
  const { plan } = checked;
  const system = checked.house.units ?? 'us';
  const sections: Section[] = [
    section('What is planned', planPage(checked)),
    section('What is found', findingsPage(checked)),
    ...topics.flatMap(({ heading, home }) => topicSection(heading, home, plan, system)),
    section('How far the parts go', headroomPage(headroom, system)),
    section('What each part must be', needsPage(needs, system)),
    section('Still to be asked', questionsPage(questions)),
    section('What is assumed in the figures', assumptionsPage(plan)),
    section('Take care', cautionsPage()),
    section('Sources', sourcesPage(plan)),
  ];
  return sections.filter(({ page, plots }) => page.length + plots.length > 0);
}

function section(heading: string, page: Page, plots: readonly Plot[] = []): Section {
  return { heading, page, plots };
}

/** The figures of a report by the part of the sheet they are at home in. */
const topics = [
  { heading: 'Engine and stages', home: ['site', 'engine', 'stages', 'fuel'] },
  {
    heading: 'Throttle body and injectors',
    home: ['throttle-body', 'stack', 'vehicle', 'sensors', 'vacuum-reference'],
  },
  { heading: 'Fuel supply', home: ['fuel-system'] },
  { heading: 'Ignition', home: ['ignition'] },
  { heading: 'Electrical', home: ['electrical'] },
] as const;

function topicSection(
  heading: string,
  home: readonly string[],
  plan: readonly StageAnalysis[],
  system: System,
): Section[] {
  const page = figurePage(home, plan, system);
  const plots = home.includes('throttle-body') ? dutyPlots(plan) : home.includes('fuel-system') ? pumpPlots(plan) : [];
  return page.length + plots.length > 0 ? [section(heading, page, plots)] : [];
}

function planPage({ sheet, plan }: Checked): Page {
  const { engine } = sheet.values;
  const about = [
    engine?.cylinders && `${engine.cylinders} cylinders`,
    engine?.displacement?.text,
    sheet.values.fuel?.grade,
  ].filter(Boolean);
  const rows = plan.map(({ name, sheet: { stage } }) => [
    echo(name),
    stage.power?.text ?? 'not known yet',
    stage.induction ?? 'natural',
    stage.boost?.text ?? '-',
    stage.cost === undefined ? '-' : String(stage.cost),
  ]);
  return [
    ...(about.length ? [paragraph(about.join(', '))] : []),
    { kind: 'table', head: ['stage', 'power', 'induction', 'boost', 'cost'], rows },
  ];
}

function findingsPage({ findings, accepted }: Checked): Page {
  const items = findings.map(({ severity, message, rule }): Span[] => [
    { strong: severity },
    ' ',
    ...prose(message),
    ' ',
    { code: rule },
  ]);
  const silenced = accepted.map(({ finding, reason }): Span[] => [
    ...prose(finding.message),
    ` Accepted: ${echo(reason, 300)}`,
  ]);
  return [
    items.length
      ? { kind: 'list', items }
      : paragraph('Nothing is found to be wrong. What is still open stands below.'),
    ...(silenced.length ? [paragraph('Accepted with a reason:'), { kind: 'list', items: silenced } as const] : []),
  ];
}

function figurePage(home: readonly string[], plan: readonly StageAnalysis[], system: System): Block[] {
  const show = (value: number, dimension: Dimension) => formatEnd(value, dimension, system, 'near');
  const isHere = ({ figure }: FigureRow) => home.includes(figureNamed(figure)?.home[0]?.split('.')[0] ?? '');
  const rows = figureTable(plan)
    .filter(isHere)
    .map(({ name, dimension, stages }) => {
      const held = stages.find((cell) => cell?.limit)?.limit;
      return [
        capital(name),
        ...stages.map((cell) => (cell ? withSpread({ ...cell, dimension }, show) : '-')),
        held ? `${held.side} ${show(held.value, dimension)}` : '',
      ];
    });
  if (rows.length === 0) return [];
  const head = ['figure', ...plan.map(({ name }) => echo(name))];
  const hasLimits = rows.some((row) => row.at(-1) !== '');
  return [
    hasLimits
      ? { kind: 'table', head: [...head, 'limit'], rows }
      : { kind: 'table', head, rows: rows.map((row) => row.slice(0, -1)) },
  ];
}

function dutyPlots(plan: readonly StageAnalysis[]): Plot[] {
  const lines = plan.flatMap((stage) => {
    const outcome = stage.see(dutyOverSpeed);
    if (!isKnown(outcome)) return [];
    return [{ name: stage.name, points: outcome.value.map(({ speed, duty }) => ({ x: speed, y: duty })) }];
  });
  if (lines.length === 0) return [];
  const most = plan[0]?.see(limit('largest-duty'));
  return [
    {
      title: 'Injector duty cycle over engine speed at full load',
      description: 'One line a stage; the dotted line is the largest duty allowed.',
      x: { name: 'engine speed', dimension: 'rotational-speed' },
      y: { name: 'duty cycle', dimension: 'ratio' },
      lines,
      ...(most && isKnown(most) && { limit: { name: 'limit', value: most.value } }),
      marks: [],
    },
  ];
}

function pumpPlots(plan: readonly StageAnalysis[]): Plot[] {
  const stage = plan.findLast((one) => isKnown(one.see(pumps)));
  const outcome = stage?.see(pumps);
  if (!outcome || !isKnown(outcome)) return [];
  const most = zeroFlowPressureOf(outcome.value, true);
  const points = Array.from({ length: POINTS + 1 }, (_, step) => {
    const pressure = (most * step) / POINTS;
    return { x: pressure, y: pumpsFlow(outcome.value, pressure, true).flow };
  });
  const marks = plan.flatMap((one) => {
    const [pressure, needed] = [one.estimate(pumpPressure)?.value, one.estimate(requiredDelivery)?.value];
    return pressure === undefined || needed === undefined
      ? []
      : [{ name: `needed, ${echo(one.name, 20)}`, x: pressure, y: needed }];
  });
  return [
    {
      title: 'Pump delivery over pressure at the volts that reach it',
      description:
        'The curve of the pumps that run at full load, with what each stage needs of them: a point above the curve is not delivered.',
      x: { name: 'pressure the pump adds', dimension: 'pressure' },
      y: { name: 'delivery', dimension: 'volume-flow' },
      lines: [{ name: 'pump', points }],
      marks,
    },
  ];
}

function questionsPage(questions: readonly AskedQuestion[]): Page {
  if (questions.length === 0) return [];
  return [{ kind: 'list', items: questions.map(({ text, at }): Span[] => [text, ' ', { code: at }]) }];
}

function assumptionsPage(plan: readonly StageAnalysis[]): Page {
  const reasons = new Map<string, string>();
  for (const stage of plan)
    for (const { inputs } of stage.figures.values())
      for (const { name, assumed } of inputs) if (assumed) reasons.set(name, assumed);
  if (reasons.size === 0) return [];
  return [{ kind: 'list', items: [...reasons].map(([name, because]): Span[] => [{ strong: name }, `: ${because}`]) }];
}

function cautionsPage(): Page {
  return [
    { kind: 'list', items: Object.values(cautions).map((text): Span[] => [text]) },
    paragraph(
      'These figures are for planning. Local codes, the makers of the parts and licensed work on fuel and electrics come first; what is set by ear or by this paper is a starting point, never a finished tune.',
    ),
  ];
}

function sourcesPage(plan: readonly StageAnalysis[]): Page {
  const sources = new Set(plan.flatMap((stage) => [...stage.figures.values()].map(({ source }) => source)));
  return sources.size ? [{ kind: 'list', items: [...sources].toSorted().map((source): Span[] => [source]) }] : [];
}
