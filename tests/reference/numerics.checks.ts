import { curveAt, linearAt, pchip } from '../../server/src/engineering/interpolation.ts';
import { findRoot } from '../../server/src/engineering/roots.ts';
import { type Check, fromFirstSet } from './check.ts';
import numerics from './values/numerics.json' with { type: 'json' };

const topic = 'interpolation and roots';
const pressures = [0, 138, 276, 414, 552];
const flows = [255, 240, 218, 190, 150];

function largestCurveDifference(): number {
  let largest = 0;
  for (const { x, y, at, value } of numerics.pchip.cases) {
    const curve = pchip(x, y);
    const scale = Math.max(...y.map(Math.abs), 1);
    for (const [i, place] of at.entries()) {
      largest = Math.max(largest, Math.abs(curveAt(curve, place) - (value[i] as number)) / scale);
    }
  }
  return largest;
}

function largestRootDifference(): number {
  let largest = 0;
  for (const row of numerics.cubics.rows) {
    const [b, c, d, low, high, root] = row as [number, number, number, number, number, number];
    const found = findRoot((x) => ((x + b) * x + c) * x + d, low, high, 1e-13);
    largest = Math.max(largest, Math.abs(found - root));
  }
  for (const row of numerics.exponentials.rows) {
    const [k, level, low, high, root] = row as [number, number, number, number, number];
    const found = findRoot((x) => Math.exp(k * x) - level, low, high, 1e-13);
    largest = Math.max(largest, Math.abs(found - root));
  }
  return largest;
}

const readings = numerics.pchip.cases.reduce((sum, one) => sum + one.at.length, 0);
const roots = numerics.cubics.rows.length + numerics.exponentials.rows.length;

export const checks: Check[] = [
  fromFirstSet('D01p', 5, topic, () => curveAt(pchip(pressures, flows), 207)),
  fromFirstSet('D02p', 5, topic, () => curveAt(pchip(pressures, flows), 345)),
  fromFirstSet('D03p', 5, topic, () => curveAt(pchip(pressures, flows), 500)),
  fromFirstSet('D02', 5, topic, () => linearAt(pressures, flows, 345)),
  fromFirstSet('D03', 5, topic, () => linearAt(pressures, flows, 500)),
  fromFirstSet('D04', 5, topic, () => linearAt([9, 11, 12, 13.5, 14], [0.55, 0.76, 0.87, 1, 1.04], 12.6)),
  fromFirstSet(
    'D05',
    5,
    topic,
    () => linearAt(pressures, flows, 345) * linearAt([9, 11, 12, 13.5, 14], [0.55, 0.76, 0.87, 1, 1.04], 12.6),
  ),
  fromFirstSet('D06', 5, topic, () => findRoot((pressure) => linearAt(pressures, flows, pressure) - 200, 0, 552)),
  {
    id: 'numerics-pchip-grid',
    section: 5,
    topic,
    what: `Largest difference, over the curve's greatest ordinate, in ${readings} readings of ${numerics.pchip.cases.length} random curves`,
    got: largestCurveDifference,
    expected: 0,
    unit: '-',
    tolerance: { absolute: 1e-12 },
    source: `${numerics.pchip.call}, ${numerics['made with']}`,
  },
  {
    id: 'numerics-root-grid',
    section: 5,
    topic,
    what: `Largest difference of ${roots} roots of random cubics and exponentials`,
    got: largestRootDifference,
    expected: 0,
    unit: '-',
    tolerance: { absolute: 1e-9 },
    source: `${numerics.cubics.call}, ${numerics['made with']}`,
  },
];
