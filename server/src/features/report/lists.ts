import type { StageAnalysis } from '../../analysis/analysis.ts';
import { fanCircuit, liftPumpCircuit, pumpCircuit } from '../../analysis/circuits.ts';
import { capital } from '../../analysis/figure-words.ts';
import type { BuildSheet, Line } from '../../generated/build-sheet.ts';
import { lineClassOf, linesOf, materialName } from '../../remedies/line-class.ts';
import { type Page, paragraph } from '../../report/page.ts';
import { echo } from '../../text/echo.ts';
import { formatEnd, formatValue, type Units } from '../../units/format.ts';

type Plan = readonly StageAnalysis[];

/** How the ends of a line of each material are made. Common practice. */
const ENDS: Record<NonNullable<Line['material']>, string> = {
  'rubber-low-pressure': '2 barbed ends, 2 clamps',
  'rubber-injection': '2 barbed ends, 2 fuel-injection clamps',
  'rubber-injection-alcohol': '2 barbed ends, 2 fuel-injection clamps',
  ptfe: '2 hose ends made for PTFE hose',
  nylon: '2 ends pressed on with the tool for nylon tube',
  'steel-tube': '2 double-flared or beaded ends',
  'aluminum-tube': '2 single-flared (37 degree) ends',
};

/** What to cut: every line with its length, bore, class and ends; those of a stage that changes them again. */
export function linesPage(plan: Plan, units: Units): Page {
  const all = plan.flatMap(({ name: stage, sheet }) => linesOf(sheet.values).map((one) => ({ ...one, stage })));
  const lines = all.filter(
    ({ name, line }, index) => !all.slice(0, index).some((one) => one.name === name && one.line === line),
  );
  if (lines.length === 0) return [];
  const rows = lines.map(({ name, line, stage }) => {
    const { material } = line;
    const bends = [
      ...(line['elbows-90'] ? [`${line['elbows-90']} of 90 deg`] : []),
      ...(line['elbows-45'] ? [`${line['elbows-45']} of 45 deg`] : []),
    ];
    return [
      capital(name),
      line.length?.text ?? 'not known',
      line['inside-diameter']?.text ?? 'not known',
      material ? `${materialName[material]}, ${lineClassOf(material).name}` : 'not known',
      material ? formatEnd(lineClassOf(material).workingPressure, 'pressure', units, 'down') : '-',
      bends.join(', ') || '-',
      material ? ENDS[material] : '-',
      echo(stage),
    ];
  });
  return [
    { kind: 'table', head: ['line', 'length', 'bore', 'class', 'holds at least', 'bends', 'ends', 'stage'], rows },
    paragraph(
      'Measure on the car before you cut, and leave slack where the engine moves. Ends and clamps are common practice; the maker of the line says what fits it.',
    ),
  ];
}

type Circuit = typeof pumpCircuit | typeof liftPumpCircuit | typeof fanCircuit;

/** What to wire: from where to where, with wire, fuse, relay and ground. */
export function wiringPage(plan: Plan, units: Units): Page {
  const stage = plan.at(-1);
  const electrical = stage?.sheet.values.electrical;
  if (!stage || !electrical) return [];
  const loads: [string, keyof typeof electrical, Circuit][] = [
    ['fuel pump', 'pump-circuit', pumpCircuit],
    ['lift pump', 'lift-pump-circuit', liftPumpCircuit],
    ['electric fan', 'fan-circuit', fanCircuit],
  ];
  const rows = loads.flatMap(([load, field, figures]) => {
    const circuit = electrical[field] as NonNullable<BuildSheet['electrical']>['pump-circuit'];
    if (!circuit) return [];
    const volts = stage.estimate(figures.voltage);
    const amps = stage.estimate(figures.amps);
    return [
      [
        `Battery to ${load}`,
        circuit.wire?.text ?? 'not known',
        circuit.length?.text ?? 'not known',
        circuit.fuse?.text ?? 'not known',
        circuit.relay === undefined ? 'not known' : circuit.relay ? 'yes' : 'none',
        circuit.ground ? GROUNDS[circuit.ground] : 'not known',
        amps ? formatValue(amps.value, 'current', units) : '-',
        volts ? formatValue(volts.value, 'voltage', units) : '-',
      ],
    ];
  });
  const { battery } = electrical;
  const cables = [
    ['Battery to starter', battery?.cable?.text, battery?.['cable-length']?.text],
    ['Engine ground to battery', battery?.['ground-cable']?.text, battery?.['ground-length']?.text],
  ].flatMap(([way = '', wire, length]) => (wire ? [[way, wire, length ?? 'not known', '-', '-', '-', '-', '-']] : []));
  if (rows.length + cables.length === 0) return [];
  const ground = electrical['computer-ground'];
  const keyFeed = electrical['key-feed'];
  const computer = [
    ground && `Computer ground: ${ground === 'battery' ? 'at the post of the battery' : 'at the engine'}.`,
    keyFeed && `Switched feed of the computer: ${KEY_FEEDS[keyFeed]}.`,
  ].filter((text) => text !== undefined);
  return [
    {
      kind: 'table',
      head: ['from and to', 'wire', 'length, one way', 'fuse', 'relay', 'ground', 'draws', 'volts there'],
      rows: [...rows, ...cables],
    },
    ...(computer.length ? [paragraph(computer.join(' '))] : []),
    paragraph('Each fuse sits within a hand of the battery, so that the whole wire is protected: common practice.'),
  ];
}

const GROUNDS = {
  'wire-to-battery': 'a wire of its own to the battery',
  chassis: 'chassis',
  unverified: 'not checked',
} as const;

const KEY_FEEDS = {
  'run-and-start': 'live in run and in start',
  'run-only': 'live in run only',
  'start-only': 'live in start only',
} as const;
