import {
  fuseLimit as fuseLimitFigure,
  fuseNeeded,
  pumpCircuitDrop,
  pumpCircuitDropShare,
} from '../analysis/electrical.ts';
import type { Situation } from '../checking/rule.ts';
import { bladeFuses, fuseLimit } from '../engineering/fuses.ts';
import { awgArea, flexibleWireResistance, stockedAreas, stockedGauges, type WireKind } from '../engineering/wire.ts';
import { connectorAllowance } from '../engineering/wiring.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import { formatIn } from '../units/format.ts';
import type { Quantity } from '../units/quantity.ts';

/** Sizes are compared at one temperature, K; which one does not matter. */
const COLD = 293.15;

/** Voltage, V, that relay contacts and connectors together may lose. Common practice, from memory. */
export const contactLimit = 0.3;

type Circuit = NonNullable<NonNullable<BuildSheet['electrical']>['pump-circuit']>;

/** The pump circuit, when it is written down far enough that a missing part is an omission: wire, length and fuse. */
export function describedCircuit({ values }: Situation): Circuit | undefined {
  const circuit = values.electrical?.['pump-circuit'];
  return circuit?.wire && circuit.length && circuit.fuse ? circuit : undefined;
}

/** Whether no fuse both carries the pump's current and protects its wire: the wire itself is too thin. */
export function isWireTooThin({ see }: Situation): boolean {
  const needed = see(fuseNeeded);
  const limit = see(fuseLimitFigure);
  return needed !== undefined && limit !== undefined && needed.value > limit.value;
}

/** The largest blade fuse, A, up to a limit; undefined when none is small enough. */
export function bladeUpTo(limit: number): number | undefined {
  return bladeFuses.findLast((fuse) => fuse <= limit);
}

/** Stocked sizes of wire of the kind the sheet uses, gauge or metric, from thin to thick, as copper area in m2 and text. */
export function stockedWires(like: Quantity): { area: number; text: string }[] {
  if (like.unit === 'AWG')
    return stockedGauges.map(awgArea).map((area) => ({ area, text: formatIn(area, 'wire-size', 'AWG') }));
  return stockedAreas.map((area) => ({ area, text: formatIn(area, 'wire-size', 'mm^2') }));
}

/**
 * The thinnest stocked wire thicker than the present one that a fuse of the given rating, A, protects and that keeps the
 * circuit's drop within the limit.
 */
export function thickerWire(situation: Situation, fuse: number): string | undefined {
  const circuit = situation.values.electrical?.['pump-circuit'];
  const wire = circuit?.wire;
  if (!wire) return undefined;
  return stockedWires(wire).find(
    ({ area }) =>
      area > wire.value * (1 + 1e-9) &&
      fuseLimit(area, kindOf(wire)) >= fuse &&
      dropShare(situation, wire, area) <= dropLimit(situation),
  )?.text;
}

function dropLimit({ limit }: Situation): number {
  return limit('voltage-drop') * (1 + 1e-9);
}

/** Share of the voltage the circuit would lose with a wire of another area; 0 where the drop is not known. */
function dropShare({ values, see }: Situation, wire: Quantity, area: number): number {
  const share = see(pumpCircuitDropShare);
  const drop = see(pumpCircuitDrop);
  if (!share || !drop) return 0;
  const contacts = values.electrical?.['pump-circuit']?.connectors?.value ?? connectorAllowance.value;
  const inWire =
    Math.max(0, drop.value - contacts) * (resistance(area, kindOf(wire)) / resistance(wire.value, kindOf(wire)));
  return ((share.high ?? share.value) * (contacts + inWire)) / drop.value;
}

function resistance(area: number, kind: WireKind): number {
  return flexibleWireResistance(area, kind, COLD);
}

function kindOf(wire: Quantity): WireKind {
  return wire.unit === 'AWG' ? 'gauge' : 'metric';
}
