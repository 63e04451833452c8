import { fuseRating } from '../../server/src/engineering/fuses.ts';
import { awgArea, awgDiameter, awgNumber, strandLay, wireResistance } from '../../server/src/engineering/wire.ts';
import { chargingBalance, largestResistance, voltageDrop } from '../../server/src/engineering/wiring.ts';
import { type Check, firstSetRow, fromFirstSet } from './check.ts';
import { CELSIUS, INCH } from './units.ts';
import flow from './values/flow.json' with { type: 'json' };

const wire = 'wire and voltage drop';
const fuse = 'fuses and charging';
const thousandFeet = 304.8;

function diameterMillimeters(id: string, gauge: number): Check {
  return fromFirstSet(id, 8, wire, () => awgDiameter(gauge) * 1000);
}

function coldMilliohm(id: string, gauge: number): Check {
  return fromFirstSet(id, 8, wire, () => wireResistance(awgArea(gauge), 20 + CELSIUS) * 1000);
}

function hotStranded(id: string, gauge: number): Check {
  return fromFirstSet(id, 8, wire, () => wireResistance(awgArea(gauge), 75 + CELSIUS, strandLay) * thousandFeet);
}

function circuit(gauge: number, length: number, celsius: number, connectors = 0) {
  const resistancePerMeter = wireResistance(awgArea(gauge), celsius + CELSIUS);
  return { resistancePerMeter, length, returnLength: length, connectors };
}

/** Copper, m2, that loses 3 % of 13.5 V at 15 A over 5 m and back. */
function areaForDrop(): number {
  const most = largestResistance({ current: 15, drop: 0.03 * 13.5, length: 5, returnLength: 5 });
  return wireResistance(1, 20 + CELSIUS) / most;
}

function printedCold(gauge: number, ohm: number): Check {
  return {
    id: `wiring-printed-${gauge}`,
    section: 8,
    topic: wire,
    what: `resistance of solid ${gauge} AWG copper at 20 degC`,
    got: () => wireResistance(awgArea(gauge), 20 + CELSIUS) * thousandFeet,
    expected: ohm,
    unit: 'ohm/1000 ft',
    tolerance: { relative: 0.001 },
    source: 'common AWG table at 20 degC (hyperphysics.phy-astr.gsu.edu)',
  };
}

export const checks: Check[] = [
  diameterMillimeters('W01', 10),
  coldMilliohm('W01r', 10),
  coldMilliohm('W02r', 12),
  diameterMillimeters('W03', 14),
  coldMilliohm('W03r', 14),
  diameterMillimeters('W04', 16),
  diameterMillimeters('W05', 18),
  {
    id: 'wiring-gauge-grid',
    section: 8,
    topic: wire,
    what: `Largest difference of the diameters of ${flow.gauges.rows.length} gauges, 0 to 36, from a table printed to 0.0001 in`,
    got: () =>
      Math.max(
        ...flow.gauges.rows.map(([gauge, diameter]) => Math.abs(awgDiameter(gauge as number) - (diameter as number))),
      ) / INCH,
    expected: 0,
    unit: 'in',
    tolerance: { absolute: 0.00005 },
    source: `${flow.gauges.call}, ${flow['made with']}`,
  },
  hotStranded('W06', 10),
  hotStranded('W07', 12),
  hotStranded('W08', 14),
  hotStranded('W09', 16),
  hotStranded('W10', 18),
  fromFirstSet('W11', 8, wire, () => voltageDrop(circuit(12, 5, 20), 15)),
  fromFirstSet('W14', 8, wire, () => voltageDrop(circuit(12, 5, 80), 15)),
  fromFirstSet('W15', 8, wire, () => voltageDrop(circuit(16, 3, 60), 10)),
  fromFirstSet('W16', 8, wire, () => voltageDrop(circuit(10, 8, 60), 15)),
  fromFirstSet('W21', 8, wire, () => Math.floor(awgNumber(areaForDrop()))),
  {
    id: 'wiring-gauge-continuous',
    section: 8,
    topic: wire,
    what: 'gauge, not rounded, that meets the limit of row W21',
    got: () => awgNumber(areaForDrop()),
    expected: 9.165,
    unit: 'AWG',
    tolerance: { absolute: 0.001 },
    source: firstSetRow('W21').source,
  },
  fromFirstSet('W22', 8, wire, () => 13.8 - voltageDrop(circuit(12, 5, 20, 0.1), 15)),
  printedCold(10, 0.9989),
  printedCold(12, 1.588),
  printedCold(14, 2.525),
  printedCold(16, 4.016),
  printedCold(18, 6.385),
  fromFirstSet('F01', 8, fuse, () => fuseRating(8, 0.75) ?? 0),
  fromFirstSet('F03', 8, fuse, () => fuseRating(12, 0.75) ?? 0),
  fromFirstSet('F04', 8, fuse, () => fuseRating(12, 0.8) ?? 0),
  fromFirstSet('F05', 8, fuse, () => fuseRating(15, 0.75) ?? 0),
  fromFirstSet('F06', 8, fuse, () => fuseRating(15.1, 0.75) ?? 0),
  fromFirstSet('F07', 8, fuse, () => fuseRating(18, 0.8) ?? 0),
  {
    id: 'wiring-charging-balance',
    section: 8,
    topic: fuse,
    what: 'what is left of 61 A for loads of 12, 15, 9.5 and 11 A',
    got: () => chargingBalance(61, [12, 15, 9.5, 11]).reserve,
    expected: 13.5,
    unit: 'A',
    tolerance: { relative: 1e-12 },
    source: 'exact arithmetic',
  },
];
