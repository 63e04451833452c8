import { fanCircuit, liftPumpCircuit, pumpCircuit } from '../analysis/circuits.ts';
import { hasFan, hasLiftPump } from '../analysis/loads.ts';
import type { FigureNode } from '../analysis/node.ts';
import type { Situation } from '../checking/rule.ts';
import { bladeFuses, fuseLimit } from '../engineering/fuses.ts';
import { sizeAbove, wireSizes } from '../engineering/series.ts';
import { flexibleWireResistance, type WireKind } from '../engineering/wire.ts';
import type { Circuit as CircuitFields } from '../generated/build-sheet.ts';
import type { FieldPath } from '../sheet/path.ts';
import { formatIn } from '../units/format.ts';
import type { Quantity } from '../units/quantity.ts';

/** Sizes are compared at one temperature, K; which one does not matter. */
const COLD = 293.15;

/** Voltage, V, that connectors, relay and fuse together may lose. Common practice, from memory. */
export const contactLimit = 0.3;

const CIRCUITS = [
  { path: 'electrical.pump-circuit', noun: 'pump', figures: pumpCircuit, load: 'fuel-system.pump.current' },
  {
    path: 'electrical.lift-pump-circuit',
    noun: 'lift pump',
    figures: liftPumpCircuit,
    load: 'fuel-system.lift-pump.current',
  },
  { path: 'electrical.fan-circuit', noun: 'fan', figures: fanCircuit, load: 'electrical.fan-load' },
] as const;

type Figures = Readonly<Record<keyof typeof pumpCircuit, FigureNode>>;

/** A circuit of the sheet: where it stands, what hangs on it, its figures, and the field of what it draws. */
export type Circuit = {
  readonly path: (typeof CIRCUITS)[number]['path'];
  readonly noun: string;
  readonly figures: Figures;
  readonly load: FieldPath;
  readonly fields: CircuitFields;
};

/** The circuits of pump, lift pump and fan that the sheet writes down. One that belongs to nothing is not looked for. */
export function circuitsOf({ values, know }: Pick<Situation, 'values' | 'know'>): Circuit[] {
  const electrical = values.electrical;
  const fields = [
    electrical?.['pump-circuit'],
    know(hasLiftPump) ? electrical?.['lift-pump-circuit'] : undefined,
    know(hasFan) ? electrical?.['fan-circuit'] : undefined,
  ];
  return CIRCUITS.flatMap((circuit, index) => {
    const own = fields[index];
    return own ? [{ ...circuit, fields: own }] : [];
  });
}

/** Whether a circuit is written down far enough that a missing part is an omission: wire, length and fuse. */
export function isDescribed({ fields }: Pick<Circuit, 'fields'>): boolean {
  return fields.wire !== undefined && fields.length !== undefined && fields.fuse !== undefined;
}

/** Whether the pump's circuit is written down so far. */
export function isPumpCircuitDescribed({ values }: Pick<Situation, 'values'>): boolean {
  const fields = values.electrical?.['pump-circuit'];
  return fields !== undefined && isDescribed({ fields });
}

/** Whether no fuse both carries the load and protects the wire: the wire itself is too thin. */
export function isWireTooThin({ figures }: Circuit, { see }: Pick<Situation, 'see'>): boolean {
  const needed = see(figures.fuseNeeded);
  const limit = see(figures.fuseLimit);
  return needed !== undefined && limit !== undefined && needed.value > limit.value;
}

/** The largest blade fuse, A, up to a limit; undefined when none is small enough. */
export function bladeUpTo(limit: number): number | undefined {
  return bladeFuses.findLast((fuse) => fuse <= limit);
}

/** A size of wire, m2, as text in the kind the sheet uses. */
export function wireText(size: number, like: Quantity): string {
  return formatIn(size, 'wire-size', like.unit === 'AWG' ? 'AWG' : 'mm^2');
}

/** How a wire of the sheet is counted. */
export function kindOf({ unit }: Quantity): WireKind {
  return unit === 'AWG' ? 'gauge' : 'metric';
}

/**
 * The thinnest stocked wire thicker than the present one that a fuse of the given rating, A, protects and that keeps the
 * drop within the limit.
 */
export function thickerWire(circuit: Circuit, situation: Situation, fuse: number): string | undefined {
  const { wire } = circuit.fields;
  if (!wire) return undefined;
  const kind = kindOf(wire);
  const most = situation.limit('voltage-drop') * (1 + 1e-9);
  const share = situation.see(circuit.figures.dropShare);
  const present = share ? (share.high ?? share.value) / resistance(wire.value, kind) : 0;
  let size = sizeAbove(wireSizes[kind], wire.value);
  while (size !== undefined && (fuseLimit(size, kind) < fuse || present * resistance(size, kind) > most))
    size = sizeAbove(wireSizes[kind], size);
  return size === undefined ? undefined : wireText(size, wire);
}

function resistance(size: number, kind: WireKind): number {
  return flexibleWireResistance(size, kind, COLD);
}
