import type { StageAnalysis } from '../../analysis/analysis.ts';
import { pumpCircuit } from '../../analysis/circuits.ts';
import { withSpread } from '../../analysis/figure-words.ts';
import { dutyAtPeakPower } from '../../analysis/full-load-injection.ts';
import { idleVacuum } from '../../analysis/idle.ts';
import { measurables } from '../../analysis/measurables.ts';
import type { FigureNode } from '../../analysis/node.ts';
import { idleRailPressure, pumpInletPressure, railPressure, returnBackPressure } from '../../analysis/supply.ts';
import { fullLoadTiming, idleTiming } from '../../analysis/timing.ts';
import { type Page, paragraph } from '../../report/page.ts';
import { echo } from '../../text/echo.ts';
import { formatValue, type Units } from '../../units/format.ts';
import type { Dimension } from '../../units/units.ts';

type Expected = (stage: StageAnalysis, show: Show) => string | undefined;
type Show = (value: number, dimension: Dimension) => string;

/** What to read on the car, how, and what the sheet lets expect. */
const readings: readonly { what: string; how: string; expected: Expected }[] = [
  {
    what: 'Fuel pressure, key on, engine off',
    how: 'gauge at the test port while the pump primes',
    expected: ({ sheet: { values } }) => values['fuel-system']?.regulator?.pressure?.text,
  },
  {
    what: 'Fuel pressure after the pump has stopped',
    how: 'watch the gauge for five minutes, joints dry; common practice',
    expected: () => 'falls slowly, never at once',
  },
  {
    what: 'Fuel pressure at idle, hose on the regulator',
    how: 'engine warm',
    expected: figureExpected(idleRailPressure),
  },
  {
    what: 'Fuel pressure at idle, hose off and plugged',
    how: 'only where the regulator refers to the manifold',
    expected: ({ sheet: { values } }) => {
      const regulator = values['fuel-system']?.regulator;
      return regulator?.reference === 'manifold' ? regulator.pressure?.text : undefined;
    },
  },
  {
    what: 'Fuel pressure at full load',
    how: 'gauge in sight of a second person, or logged; never by the driver',
    expected: figureExpected(railPressure),
  },
  {
    what: 'Pressure in the return line',
    how: 'tee at the regulator, all pumps running, engine off',
    expected: figureExpected(returnBackPressure),
  },
  {
    what: 'Pressure at the inlet of the pump',
    how: 'only where the pump is outside the tank; below zero is suction',
    expected: (stage, show) =>
      stage.sheet.values['fuel-system']?.pump?.placement === 'external'
        ? figureExpected(pumpInletPressure)(stage, show)
        : undefined,
  },
  {
    what: 'Volts at the pump, across its two terminals',
    how: 'pump running, engine running',
    expected: figureExpected(pumpCircuit.voltage),
  },
  { what: 'Current of the pump', how: 'clamp meter at its wire', expected: figureExpected(pumpCircuit.amps) },
  { what: 'Vacuum at idle', how: 'gauge at the manifold, engine warm', expected: figureExpected(idleVacuum) },
  {
    what: 'Timing at idle',
    how: 'timing light, before the first drive, with the timing held fixed',
    expected: figureExpected(idleTiming),
  },
  {
    what: 'Timing at full load',
    how: 'set by someone with experience; the value to start from',
    expected: figureExpected(fullLoadTiming),
  },
  {
    what: 'Injector duty cycle at peak power',
    how: 'as the computer shows it',
    expected: figureExpected(dutyAtPeakPower),
  },
];

/** Readings to take on the finished car beside what the sheet lets expect in each stage. */
export function readingsPage(plan: readonly StageAnalysis[], units: Units): Page {
  const show: Show = (value, dimension) => formatValue(value, dimension, units);
  const rows = readings.flatMap(({ what, how, expected }) => {
    const values = plan.map((stage) => expected(stage, show));
    return values.some((value) => value !== undefined) ? [[what, how, ...values.map((value) => value ?? '-'), '']] : [];
  });
  if (rows.length < 2) return [];
  return [
    { kind: 'table', head: ['reading', 'how', ...plan.map(({ name }) => echo(name)), 'read'], rows },
    paragraph(
      'A reading that is off is no reason to turn a screw: find out first what the sheet has taken for granted that is not so.',
    ),
  ];
}

/** What a figure lets expect; of what the usual instrument does not tell from nothing, only that. */
function figureExpected(node: FigureNode): Expected {
  const blind = measurables.find(({ figure }) => figure === node)?.instrument.fixed ?? 0;
  return (stage, show) => {
    const found = stage.estimate(node);
    if (!found) return undefined;
    return Math.abs(found.value) < blind ? `under ${show(blind, found.dimension)}` : withSpread(found, show);
  };
}
