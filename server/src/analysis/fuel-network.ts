import { type Line, roughness } from '../engineering/lines.ts';
import type { Filter } from '../engineering/network.ts';
import { type Pump, type PumpTest, type PumpUnit, pumpFromTests, trustedVoltage } from '../engineering/pump.ts';
import type { Line as LineFields } from '../generated/build-sheet.ts';
import type { FieldPath } from '../sheet/path.ts';
import { pumpCircuit } from './circuits.ts';
import { pumpArrangement, pumpQuantity } from './loads.ts';
import { choice, choose, constant, fact, field, given, optional, table } from './node.ts';
import { hasReturn, isDeadHead } from './regulator.ts';

type Material = NonNullable<LineFields['material']>;

const WALL = {
  'rubber-low-pressure': roughness.rubberHose,
  'rubber-injection': roughness.rubberHose,
  'rubber-injection-alcohol': roughness.rubberHose,
  ptfe: roughness.ptfeHose,
  nylon: roughness.ptfeHose,
  'steel-tube': roughness.drawnTube,
  'aluminum-tube': roughness.drawnTube,
} as const;

type Placement = 'in-tank' | 'tank-module' | 'surge-tank' | 'external';

/** Where the pump sits; nothing while the sheet does not say. */
export const pumpPlacement = optional(choice<Placement>('fuel-system.pump.placement', 'placement'));

export const isExternal = fact({
  id: 'is-external-pump',
  from: { pumpPlacement },
  compute: ({ pumpPlacement }) => pumpPlacement === 'external',
});

export const pumpHeight = field('fuel-system.pump.height-above-outlet', 'z', {
  value: 0,
  because: 'level with the tank outlet',
});
const noHeight = constant({
  symbol: 'z',
  name: 'height of the pump above the tank outlet',
  value: 0,
  dimension: 'length',
  assumed: 'the pump is in the fuel',
});
/** Height of the pump over the tank outlet, m. */
const pumpRise = choose({
  id: 'pump-rise',
  from: { isExternal },
  among: ({ isExternal }) => (isExternal ? pumpHeight : noHeight),
});
const feedRise = optional(field('fuel-system.feed-rise', 'z_feed'));

/** Voltage, V, a pump's curve is taken for where the sheet does not say. Common practice. */
export const RATED_VOLTAGE = 13.5;

const pumpCurve = table('fuel-system.pump.flow-at', 'curve');
const ratedVoltage = field('fuel-system.pump.rated-voltage', 'U_rated', {
  value: RATED_VOLTAGE,
  because: 'common practice',
});
const weakCurve = optional(table('fuel-system.pump.low-voltage.flow-at', 'curve at low voltage'));
const weakVoltage = optional(field('fuel-system.pump.low-voltage.voltage', 'U_low'));

/** The pump's curves at rated and at the second voltage. Impossible for curves that no pump has. */
export const pump = fact({
  id: 'pump',
  from: { pumpCurve, ratedVoltage, weakCurve, weakVoltage },
  compute: ({ pumpCurve, ratedVoltage, weakCurve, weakVoltage }): Pump => {
    const first = testOf(pumpCurve, ratedVoltage);
    return pumpFromTests(weakCurve ? [first, testOf(weakCurve, weakVoltage ?? RATED_VOLTAGE)] : [first]);
  },
});

function testOf(curve: readonly (readonly [number, number])[], voltage: number): PumpTest {
  return { voltage, points: curve.map(([pressure, flow]) => ({ pressure, flow })) };
}

/** Pumps that run together, that come in under load, and that only stand by; impossible where too few volts reach them. */
export const pumps = fact({
  id: 'pumps',
  from: { pump, pumpQuantity, pumpArrangement, volts: pumpCircuit.voltage },
  compute: ({ pump, pumpQuantity, pumpArrangement, volts }): PumpUnit[] => {
    const voltage = trustedVoltage(pump, volts);
    const unit = (role: PumpUnit['role'], quantity: number) => ({ pump, voltage, role, quantity });
    if (pumpArrangement === 'parallel') return [unit('main', pumpQuantity)];
    const others = pumpQuantity - 1;
    if (others === 0 || pumpArrangement === 'single') return [unit('main', 1)];
    return [unit('main', 1), unit(pumpArrangement, others)];
  },
});

type LineName = 'feed' | 'return' | 'suction';

/** A line of the fuel system without its rise. */
function lineNode(name: LineName) {
  const part = `fuel-system.${name}` as const;
  const diameter = field(`${part}.inside-diameter`, `d_${name}`);
  const length = field(`${part}.length`, `l_${name}`);
  const usedLength = name === 'suction' ? suctionLength(length) : length;
  return fact({
    id: `${name}-line`,
    from: {
      diameter,
      length: usedLength,
      material: choice<Material>(`${part}.material`, `wall_${name}`, {
        value: 'rubber-injection',
        because: 'the rougher wall',
      }),
      elbows90: optional(field(`${part}.elbows-90`, 'n_90')),
      elbows45: optional(field(`${part}.elbows-45`, 'n_45')),
    },
    compute: ({ diameter, length, material, elbows90, elbows45 }): Line => ({
      diameter,
      length,
      roughness: WALL[material].value,
      elbows90,
      elbows45,
      rise: 0,
    }),
  });
}

/** Length of the suction line: its own, else the pump's distance from the tank. */
function suctionLength(own: ReturnType<typeof field>) {
  const hasOwn = given('fuel-system.suction.length');
  const distance = field('fuel-system.pump.distance', 'l_s');
  return choose({ id: 'suction-length', from: { hasOwn }, among: ({ hasOwn }) => (hasOwn ? own : distance) });
}

const returnLine = lineNode('return');

/** Lines whose bore or length is not known are left out. */
export const suctionLine = optional(lineNode('suction'));
const feedLine = optional(lineNode('feed'));

/** A filter with its rated point; nothing while that is not known. */
function filterNode(part: 'fuel-system.filter' | 'fuel-system.pre-filter', law: Filter['law'], symbol: string) {
  return optional(
    fact({
      id: part,
      from: {
        loss: field(`${part}.loss` as FieldPath, symbol),
        flow: field(`${part}.loss-at` as FieldPath, 'Q_rated'),
      },
      compute: ({ loss, flow }): Filter => ({ loss, flow, law }),
    }),
  );
}

export const preFilter = filterNode('fuel-system.pre-filter', 'quadratic', 'dp_pre');
const filter = filterNode('fuel-system.filter', 'linear', 'dp_filter');

/** Lines from tank to pump, of an external pump only. */
export const suction = choose({
  id: 'suction-side',
  from: { isExternal },
  among: ({ isExternal }) => (isExternal ? suctionLine : noLine),
});
const noLine = fact({ id: 'no-line', from: {}, compute: (): Line | undefined => undefined });

/** What the return line rises from the regulator to the tank, m: it falls what the feed line and the pump rise. */
const returnRise = fact({
  id: 'return-rise',
  from: { pumpRise, feedRise },
  compute: ({ pumpRise, feedRise = 0 }) => -(feedRise + pumpRise),
});

/** The return line with its rise. */
export const returnWay = fact({
  id: 'return-way',
  from: { returnLine, returnRise },
  compute: ({ returnLine, returnRise }): Line[] => [{ ...returnLine, rise: returnRise }],
});

/** Feed line and fine filter, from pump to rail. */
export const feedSide = fact({
  id: 'feed-side',
  from: { feedLine, filter, feedRise },
  compute: ({ feedLine, filter, feedRise = 0 }) => ({
    feed: feedLine ? [{ ...feedLine, rise: feedRise }] : [],
    filter,
  }),
});

const knownWay = optional(returnWay);
const noWay = fact({ id: 'no-way-back', from: {}, compute: (): Line[] | undefined => undefined });

const back = choose({
  id: 'way-back',
  from: { hasReturn },
  among: ({ hasReturn }) => (hasReturn ? knownWay : noWay),
});

/** The lines and filters of the fuel system as a network to solve; parts without the fields they need are left out. */
export const piping = fact({
  id: 'piping',
  from: { suction, preFilter, feedSide, back, isDeadHead, pumpRise },
  compute: ({ suction, preFilter, feedSide, back, isDeadHead, pumpRise }) => ({
    ...feedSide,
    suction: suction ? [{ ...suction, rise: pumpRise }] : [],
    preFilter,
    return: isDeadHead ? undefined : (back ?? []),
  }),
});
