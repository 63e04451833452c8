import type { StageAnalysis } from '../analysis/analysis.ts';
import type { Term } from '../analysis/figure.ts';
import { capital, withSpread } from '../analysis/figure-words.ts';
import { figureNamed } from '../analysis/figures.ts';
import type { FigureNode } from '../analysis/node.ts';
import { cautions } from '../checking/cautions.ts';
import type { Checked } from '../checking/checked.ts';
import type { Severity } from '../checking/rule.ts';
import type { Headroom } from '../fit/headroom.ts';
import type { Needs } from '../fit/needs.ts';
import type { WaitingCost } from '../fit/waiting.ts';
import type { Drawing } from '../report/drawing.ts';
import { price, waitingPage } from '../report/fit-page.ts';
import { headroomPage } from '../report/headroom-page.ts';
import type { Section } from '../report/html.ts';
import { type FigureRow, figureTable } from '../report/model.ts';
import { needsPage } from '../report/needs-page.ts';
import { type Block, type Page, paragraph, prose, type Span } from '../report/page.ts';
import { fullTitle } from '../sheet/full-title.ts';
import { unitsIn } from '../sheet/house.ts';
import { type FieldPath, fieldAt, stepsOf } from '../sheet/path.ts';
import { echo } from '../text/echo.ts';
import { formatValue, type Units } from '../units/format.ts';
import type { Dimension } from '../units/units.ts';
import type { AskedQuestion } from './questions.ts';
import { dutyPlots, pressurePlots, pumpPlots, voltagePlots } from './report/curves.ts';
import { fuelPaths } from './report/fuel-path.ts';
import { ladders } from './report/ladder.ts';
import { linesToBuy } from './report/lines-to-buy.ts';
import { linesPage, wiringPage } from './report/lists.ts';
import { measuredPage } from './report/measured.ts';
import { orderOfWorkPage } from './report/order-of-work.ts';
import { partsCost, partsPage } from './report/parts.ts';
import { pointsPage } from './report/points.ts';
import { readingsPage } from './report/readings.ts';
import { sparkPlots, startingPage } from './report/starting.ts';

type Plan = readonly StageAnalysis[];

/** Everything a report is made of, worked out before. */
export type Reported = {
  checked: Checked;
  needs: Needs;
  headroom: readonly Headroom[];
  questions: readonly AskedQuestion[];
  /** What waiting costs, where there are catalogs. */
  waiting?: WaitingCost | undefined;
};

/** A build on paper: what is planned, found, computed, needed, still open, assumed, and what to take care of. */
export function reportOf({ checked, needs, headroom, questions, waiting }: Reported): Section[] {
  const { plan } = checked;
  const units = unitsIn(checked.house);
  const figures = figureTable(plan);
  const sections: Section[] = [
    section('What is planned', planPage(checked)),
    section('What is found', findingsPage(checked)),
    section('How far the parts go', headroomPage(headroom, units), ladders(headroom)),
    section('Still to be asked', questionsPage(questions)),
    ...topics.map((topic) => topicSection(topic, figures, plan, units)),
    section('What each part must be', needsPage(needs, units)),
    section('Parts', partsPage(checked)),
    section('The cost of waiting', waiting ? waitingPage(waiting, checked.house.currency) : []),
    section('Lines to cut', [...linesPage(plan, units), ...linesToBuy(checked, units)]),
    section('Wiring', wiringPage(plan, units)),
    section('Points of installation', pointsPage(plan)),
    section('Order of work', orderOfWorkPage(checked)),
    section('Readings to take', readingsPage(plan, units)),
    section('Measured against computed', measuredPage(plan, units)),
    { ...section('To start tuning from', startingPage(plan, units), sparkPlots(plan)), isStartingPoint: true },
    section('What is assumed in the figures', assumptionsPage(plan, units)),
    section('Take care', cautionsPage()),
    section('Signed', signaturesPage(checked)),
    section('Sources', sourcesPage(plan)),
  ];
  return sections.filter(({ page, drawings }) => page.length + drawings.length > 0);
}

function section(heading: string, page: Page, drawings: readonly Drawing[] = []): Section {
  return { heading, page, drawings };
}

type Topic = {
  heading: string;
  home: readonly string[];
  curves: (plan: Plan) => readonly Drawing[];
};

/** The figures of a report by the part of the sheet they are at home in, with their curves. */
export const topics: readonly Topic[] = [
  {
    heading: 'Engine and stages',
    home: ['site', 'engine', 'stages', 'fuel', 'transmission', 'brakes'],
    curves: () => [],
  },
  {
    heading: 'Throttle body and injectors',
    home: ['throttle-body', 'stack', 'vehicle', 'sensors', 'vacuum-reference'],
    curves: dutyPlots,
  },
  {
    heading: 'Fuel supply',
    home: ['fuel-system'],
    curves: (plan) => [...fuelPaths(plan), ...pumpPlots(plan), ...pressurePlots(plan)],
  },
  { heading: 'Ignition', home: ['ignition'], curves: () => [] },
  { heading: 'Electrical', home: ['electrical'], curves: voltagePlots },
];

function topicSection(
  { heading, home, curves }: Topic,
  figures: readonly FigureRow[],
  plan: Plan,
  units: Units,
): Section {
  const own = figures.filter(({ figure }) => isAtHome(figureNamed(figure), home));
  return section(heading, figurePage(own, plan, units), curves(plan));
}

/** Whether a figure is at home in one of some sections of the sheet. */
export function isAtHome(node: Pick<FigureNode, 'home'> | undefined, sections: readonly string[]): boolean {
  const [first] = node?.home ?? [];
  return first !== undefined && sections.includes(stepsOf(first)[0] ?? '');
}

function planPage(checked: Checked): Page {
  const { sheet, plan } = checked;
  const { engine } = sheet.values;
  const about = [
    engine?.cylinders && `${engine.cylinders} cylinders`,
    engine?.displacement?.text,
    sheet.values.fuel?.grade,
  ].filter(Boolean);
  const rows = plan.map(({ name, index, sheet: { stage } }) => [
    echo(name),
    stage.power?.text ?? 'not known yet',
    stage.induction ?? 'natural',
    stage.boost?.text ?? '-',
    partsCost(checked, index) || '-',
    stage.cost === undefined ? '-' : price(stage.cost, checked.house.currency),
  ]);
  return [
    ...(about.length ? [paragraph(about.join(', '))] : []),
    { kind: 'table', head: ['stage', 'power', 'induction', 'boost', 'parts', 'work and the rest'], rows },
  ];
}

const GRAVITY: readonly Severity[] = ['error', 'warning', 'information', 'hint'];

function findingsPage({ findings, accepted }: Checked): Page {
  const worstFirst = findings.toSorted((one, other) => GRAVITY.indexOf(one.severity) - GRAVITY.indexOf(other.severity));
  const items = worstFirst.map(({ severity, message, rule }): Span[] => [
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

function figurePage(figures: readonly FigureRow[], plan: Plan, units: Units): Block[] {
  const show = (value: number, dimension: Dimension) => formatValue(value, dimension, units);
  const rows = figures.map(({ name, dimension, stages }) => {
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

/** Questions of a report, the weightiest; `build-sheet questions` tells all. */
const MOST_ASKED = 15;

function questionsPage(questions: readonly AskedQuestion[]): Page {
  if (questions.length === 0) return [];
  const items = questions.slice(0, MOST_ASKED).map(({ text, at }): Span[] => [text, ' ', { code: at }]);
  const left = questions.length - items.length;
  return [{ kind: 'list', items }, ...(left > 0 ? [paragraph(`And ${left} more, of less weight.`)] : [])];
}

function assumptionsPage(plan: Plan, units: Units): Page {
  const reasons = new Map<string, Span[]>();
  for (const stage of plan)
    for (const { inputs } of stage.figures.values())
      for (const term of inputs) {
        if (!term.assumed) continue;
        const said = assumption(term, units);
        reasons.set(JSON.stringify(said), said);
      }
  return reasons.size === 0 ? [] : [{ kind: 'list', items: [...reasons.values()] }];
}

/** What is taken for a value that the sheet does not give, and why. */
function assumption({ name, field, value, dimension, text, assumed }: Term, units: Units): Span[] {
  const title = field ? fullTitle(fieldAt(field) as FieldPath) : name;
  const shown = text ?? (value === 0 ? '0' : formatValue(value, dimension, units)); // nothing is nothing in any unit
  return [{ strong: capital(title) }, ` ${shown}`.trimEnd(), `: ${assumed}`];
}

function cautionsPage(): Page {
  return [
    { kind: 'list', items: Object.values(cautions).map((text): Span[] => [text]) },
    paragraph(
      'These figures are for planning. Local codes, the makers of the parts and licensed work on fuel and electrics come first; what is set by ear or by this paper is a starting point, never a finished tune.',
    ),
  ];
}

/** What a person must attest, with a line to sign; what the sheet says of it stands beside. */
const attestations = [
  { field: 'pressure-test', text: 'The fuel system was leak-tested at its working pressure, engine off.' },
  { field: 'extinguisher', text: 'An extinguisher was at hand for the first start, and one is in the vehicle.' },
  {
    field: 'road-use-notice',
    text: 'The owner was told that emissions and noise are for the local authority to decide.',
  },
] as const;

function signaturesPage({ sheet }: Checked): Page {
  const { handover } = sheet.values;
  const rows = attestations.map(({ field, text }) => {
    const said = handover?.[field];
    return [text, said === undefined ? 'not known yet' : said ? 'yes' : 'no', '', ''];
  });
  return [{ kind: 'table', head: ['statement', 'in the sheet', 'date', 'name and signature'], rows }];
}

/** Whether a source is more than a definition, a sum or custom. */
function isPublished(source: string): boolean {
  return !/^(count|sum|difference|definition|geometry|(mass|current|pressure|voltage) balance|continuity)$|^the sheet|no source$/.test(
    source,
  );
}

function sourcesPage(plan: Plan): Page {
  const sources = new Set(plan.flatMap((stage) => [...stage.figures.values()].map(({ source }) => source)));
  if (sources.size === 0) return [];
  const published = [...sources].filter(isPublished).toSorted();
  return [{ kind: 'list', items: published.map((source): Span[] => [source]) }];
}
