import { type Line, roughness } from '../engineering/lines.ts';
import type { Filter, FuelNetwork } from '../engineering/network.ts';
import { type Pump, type PumpTest, type PumpUnit, pumpFromTests } from '../engineering/pump.ts';
import type { Filter as FilterFields, Line as LineFields, Pump as PumpFields } from '../generated/build-sheet.ts';
import type { Quantity } from '../units/quantity.ts';
import type { Pick } from './worksheet.ts';

const WALL = {
  'rubber-low-pressure': roughness.rubberHose,
  'rubber-injection': roughness.rubberHose,
  'rubber-injection-alcohol': roughness.rubberHose,
  ptfe: roughness.ptfeHose,
  nylon: roughness.ptfeHose,
  'steel-tube': roughness.drawnTube,
  'aluminum-tube': roughness.drawnTube,
} as const;

/** The sheet's fuel system as a network to solve; parts without the fields they need are left out. */
export function networkOf(
  fields: {
    pump?: PumpFields | undefined;
    suction?: LineFields | undefined;
    'pre-filter'?: FilterFields | undefined;
    feed?: LineFields | undefined;
    filter?: FilterFields | undefined;
    return?: LineFields | undefined;
    'feed-rise'?: Quantity | undefined;
    tank?: { 'return-port'?: boolean } | undefined;
    regulator?: { style?: string } | undefined;
  },
  at: { pump: Pump; voltage: number; setting: number; reference: number; density: number; viscosity: number },
  pick: Pick,
): FuelNetwork {
  const rise = fields['feed-rise'] ? pick(fields['feed-rise']) : 0;
  const isExternal = fields.pump?.placement === 'external';
  const pumpRise = isExternal && fields.pump?.['height-above-outlet'] ? pick(fields.pump['height-above-outlet']) : 0;
  const suction = lineOf(suctionFields(fields.suction, fields.pump), pick, pumpRise);
  const feed = lineOf(fields.feed, pick, rise);
  const back = lineOf(fields.return, pick, -(rise + pumpRise));
  const isDeadHead = fields.regulator?.style === 'dead-head';
  return {
    liquid: { density: at.density, viscosity: at.viscosity },
    suction: isExternal && suction ? [suction] : [],
    preFilter: filterOf(fields['pre-filter'], 'quadratic', pick),
    pumps: unitsOf(fields.pump, at.pump, at.voltage),
    feed: feed ? [feed] : [],
    filter: filterOf(fields.filter, 'linear', pick),
    regulator: { setting: at.setting, reference: at.reference, place: 'rail' },
    return: isDeadHead ? undefined : back ? [back] : [],
  };
}

/** The pump's curves at rated and at the second voltage. Throws `RangeError` for curves that no pump has. */
export function pumpOf(fields: PumpFields | undefined, pick: Pick): Pump | undefined {
  const first = testOf(fields?.['flow-at'], fields?.['rated-voltage'], pick);
  const second = testOf(fields?.['low-voltage']?.['flow-at'], fields?.['low-voltage']?.voltage, pick);
  return first && pumpFromTests(second ? [first, second] : [first]);
}

/** Voltage, V, a pump's curve is taken for where the sheet does not say. Common practice. */
export const RATED_VOLTAGE = 13.5;

function testOf(curve: unknown, voltage: Quantity | undefined, pick: Pick): PumpTest | undefined {
  const points = (curve as Quantity[][] | undefined)?.map(([pressure, flow]) => ({
    pressure: pressure ? pick(pressure) : Number.NaN,
    flow: flow ? pick(flow) : Number.NaN,
  }));
  return points && { voltage: voltage ? pick(voltage) : RATED_VOLTAGE, points };
}

/** Pumps that run together, that come in under load, and that only stand by. */
export function unitsOf(fields: PumpFields | undefined, pump: Pump, voltage: number): PumpUnit[] {
  const quantity = fields?.quantity ?? 1;
  const arrangement = fields?.arrangement ?? (quantity > 1 ? 'parallel' : 'single');
  const unit = (role: PumpUnit['role'], count: number): PumpUnit => ({ pump, voltage, role, quantity: count });
  if (arrangement === 'parallel') return [unit('main', quantity)];
  const others = quantity - 1;
  if (others === 0 || arrangement === 'single') return [unit('main', 1)];
  return [unit('main', 1), unit(arrangement, others)];
}

/** The suction line, from its own fields or from the pump's distance and the bore it needs at least. */
export function suctionFields(line: LineFields | undefined, pump: PumpFields | undefined): LineFields | undefined {
  const length = line?.length ?? pump?.distance;
  return line && length ? { ...line, length } : line;
}

export function lineOf(fields: LineFields | undefined, pick: Pick, rise: number): Line | undefined {
  if (!fields?.['inside-diameter'] || !fields.length) return undefined;
  return {
    diameter: pick(fields['inside-diameter']),
    length: pick(fields.length),
    roughness: WALL[fields.material ?? 'rubber-injection'].value,
    elbows90: fields['elbows-90'],
    elbows45: fields['elbows-45'],
    rise,
  };
}

export function filterOf(fields: FilterFields | undefined, law: Filter['law'], pick: Pick): Filter | undefined {
  if (!fields?.loss || !fields['loss-at']) return undefined;
  return { loss: pick(fields.loss), flow: pick(fields['loss-at']), law };
}
