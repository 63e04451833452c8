import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import {
  demandPerInjector,
  dutyOverSpeed,
  highestDuty,
  injectorFlow,
} from '../../../server/src/analysis/full-load-injection.ts';
import { deadTime } from '../../../server/src/analysis/injectors.ts';
import { startingMap } from '../../../server/src/analysis/starting.ts';
import { powerByCurve } from '../../../server/src/analysis/torque.ts';
import { checkText } from '../../../server/src/checking/checked.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';

const HORSEPOWER = 745.6998716;
const CURVE =
  'torque-curve: [[1000 rpm, 250 lbf ft], [3000 rpm, 300 lbf ft], [4900 rpm, 252 lbf ft], [5500 rpm, 200 lbf ft]]';

/** The wagon of the samples, 235 hp at 4,900 rpm, idle 700, redline 5,400, with another torque curve. */
const wagon = readFileSync('samples/loom-wagon.build.yaml', 'utf8');
const stageOf = (curve: string) => checkText(wagon.replace(/torque-curve: .*/, curve), noHouse).plan[0];

it('power of the curve is torque times speed: lbf ft by rpm over 5,252', () => {
  expect((stageOf(CURVE)?.know(powerByCurve) ?? 0) / HORSEPOWER).toBeCloseTo((252 * 4900) / 5252.113, 2);
});

it('no power of a curve that ends before the peak-power speed, or goes back', () => {
  expect(stageOf('torque-curve: [[1000 rpm, 250 lbf ft], [4000 rpm, 280 lbf ft]]')?.know(powerByCurve)).toBeUndefined();
  expect(stageOf('torque-curve: [[5500 rpm, 250 lbf ft], [4000 rpm, 280 lbf ft]]')?.know(powerByCurve)).toBeUndefined();
});

it('fuel on the way to peak power follows torque times speed', () => {
  /** Fuel halfway from idle to redline, at 3,050 rpm, over that at redline. */
  const share = (curve: string) => {
    const stage = stageOf(curve);
    const opening = (speed: number) => (stage?.know(deadTime) ?? Number.NaN) * speed; // two pulses a cycle of two turns
    const [middle, top] = [4, 8].map((step) => stage?.know(dutyOverSpeed)?.[step]);
    expect(middle?.speed).toBeCloseTo(3050 / 60, 9);
    return ((middle?.duty ?? 0) - opening(3050 / 60)) / ((top?.duty ?? 0) - opening(5400 / 60));
  };
  // a straight line loses 20 lbf ft every 1,000 rpm: 253 at 3,050 rpm, 216 at 4,900
  expect(share('torque-curve: [[700 rpm, 300 lbf ft], [5400 rpm, 206 lbf ft]]')).toBeCloseTo(
    (3050 * 253) / (4900 * 216),
    5,
  );
  expect(share('')).toBeCloseTo(3050 / 4900, 5);
});

it('the efficiency to start from follows the curve at full load', () => {
  const full = (curve: string, rpm: number) =>
    stageOf(curve)
      ?.know(startingMap)
      ?.filter(({ speed }) => Math.abs(speed * 60 - rpm) < 1)
      .at(-1)?.efficiency ?? Number.NaN;
  const line = 'torque-curve: [[700 rpm, 300 lbf ft], [5400 rpm, 206 lbf ft]]';
  expect(full(line, 2500) / full(line, 4500)).toBeCloseTo(264 / 224, 2);
});

it('the highest duty is where the curve makes the most power', () => {
  // 400 lbf ft at 700 rpm, 50 at 5,400, a straight line: 225 at 3,050 rpm, 87.234 at 4,900, 1.6055 times the power
  const stage = stageOf('torque-curve: [[700 rpm, 400 lbf ft], [5400 rpm, 50 lbf ft]]');
  const opening = (stage?.know(deadTime) ?? Number.NaN) * (3050 / 60);
  const fuel = (stage?.know(demandPerInjector) ?? Number.NaN) / (stage?.know(injectorFlow) ?? Number.NaN);
  expect(stage?.know(highestDuty)).toBeCloseTo(1.6055 * fuel + opening, 4);
});
