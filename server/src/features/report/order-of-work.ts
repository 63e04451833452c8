import { type Caution, cautions } from '../../checking/cautions.ts';
import type { Checked } from '../../checking/checked.ts';
import type { BuildSheet } from '../../generated/build-sheet.ts';
import { type Block, type Page, paragraph, type Span } from '../../report/page.ts';

type Values = Partial<BuildSheet>;

/** A piece of the work, what can hurt in it, and when it is part of it. */
type Step = {
  title: string;
  cautions: readonly Caution[];
  tasks: readonly string[];
  when?: (values: Values) => boolean;
};

/** The order a conversion is done in. Common practice. */
const steps: readonly Step[] = [
  {
    title: 'Before anything is opened',
    cautions: ['battery', 'fuel-pressure'],
    tasks: [
      'Outside or with the doors open, no flame, no lamp that is not made for it, an extinguisher in reach.',
      'Disconnect the battery, negative cable first.',
      'Write down what runs today: timing, idle vacuum, charging voltage, which wires go to the coil.',
    ],
  },
  {
    title: 'Tank and pump',
    cautions: ['used-tank'],
    tasks: [
      'Empty the tank into approved cans.',
      'Fit pump, strainer, return and vent; hose and wire inside the tank are of a kind made to lie in fuel.',
      'Take the mechanical pump off and close its hole, unless the sheet keeps it.',
    ],
  },
  {
    title: 'Lines, filter, regulator',
    cautions: ['fuel-pressure', 'welding'],
    tasks: [
      'Run the lines away from exhaust, driveshaft and sharp edges, with sleeves where they pass sheet metal.',
      'Mount the fine filter where it can be changed, and a port for a pressure gauge where it can be read.',
      'Blow the lines through before the filter and the throttle body are joined to them.',
    ],
  },
  {
    title: 'Throttle body, intake and vacuum',
    cautions: [],
    tasks: [
      'Check the flange and the hood before the last bolt, with clay or paper on the air cleaner.',
      'Two return springs, full travel at the pedal, nothing that binds when the engine rocks.',
      'Lead the manifold-pressure hose to the port the sheet names, and to nothing else.',
    ],
  },
  {
    title: 'Blower or turbo',
    cautions: ['knock'],
    when: ({ stages }) => stages?.some(({ induction }) => induction !== undefined && induction !== 'natural') ?? false,
    tasks: [
      'Reference, sensor range and timing are changed in the same step as the boost, not after it.',
      'The first pulls are short and at low boost, with someone watching mixture and knock.',
    ],
  },
  {
    title: 'Nitrous',
    cautions: ['nitrous'],
    when: ({ stages }) => stages?.some(({ nitrous }) => nitrous !== undefined) ?? false,
    tasks: ['Fuel side first, with its pressure proved under flow; bottle closed until all else runs.'],
  },
  {
    title: 'Sensors and exhaust',
    cautions: ['welding'],
    tasks: [
      'Oxygen sensor in a sealed pipe, tilted so that water runs off it, and never in a running exhaust without its heater.',
      'Coolant sensor where coolant flows, also with the thermostat closed.',
    ],
  },
  {
    title: 'Ignition',
    cautions: ['high-voltage'],
    tasks: [
      'Wire trigger, coil and tach signal as the sheet says, away from plug wires.',
      'Lock the distributor where the computer times the spark, and check the rotor phasing.',
    ],
  },
  {
    title: 'Wiring',
    cautions: ['battery'],
    tasks: [
      'Power and ground of the computer straight at the battery, nothing else on them.',
      'Relay, fuse near the battery, cut-offs for impact and for a stalled engine; try both before fuel is in the tank.',
    ],
  },
  {
    title: 'Pressure test, engine off',
    cautions: ['fuel-pressure'],
    tasks: [
      'A little fuel in the tank, key on, pump running: look at every joint with a lamp.',
      'Compare the pressure with the readings below before the engine turns.',
    ],
  },
  {
    title: 'First start',
    cautions: ['running-engine', 'knock'],
    tasks: [
      'Tell the computer cylinders, injectors, their flow at this pressure, fuel and redline.',
      'Hold the timing fixed and check it with a light before the car is driven.',
      'Take the readings below, warm, and write them into the sheet.',
    ],
  },
];

/** What is done in which order, with what can hurt in each piece of it. */
export function orderOfWorkPage({ sheet: { values } }: Pick<Checked, 'sheet'>): Page {
  const asked = steps.filter(({ when = () => true }) => when(values));
  return [
    ...asked.flatMap((step, index): Block[] => [
      paragraph({ strong: `${index + 1}. ${step.title}` }),
      { kind: 'list', items: [...step.tasks.map((task): Span[] => [task]), ...step.cautions.map(cautionItem)] },
    ]),
    paragraph(
      'The order is common practice. Work on fuel and electrics follows local codes and is for those licensed for it.',
    ),
  ];
}

function cautionItem(caution: Caution): Span[] {
  return [{ strong: 'Caution.' }, ` ${cautions[caution]}`];
}
