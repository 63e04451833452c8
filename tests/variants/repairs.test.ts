import { describe, expect, it } from 'vitest';
import { checkText } from '../../server/src/checking/checked.ts';
import { verifiedRepairs } from '../../server/src/checking/repair.ts';
import { fuseRatings, hoseBores, injectorFlows, renard20, wireSizes } from '../../server/src/engineering/series.ts';
import { applyEdits } from '../../server/src/sheet/edit.ts';
import { noHouse } from '../../server/src/sheet/house.ts';
import { type FieldPath, fieldSchema } from '../../server/src/sheet/path.ts';
import { parseQuantity } from '../../server/src/units/parse.ts';
import { isQuantity } from '../../server/src/units/quantity.ts';
import { findUnit } from '../../server/src/units/units.ts';
import { figuresOf } from '../reference/product.ts';
import { faults, faultyText } from './variant.ts';

type Offered = { fault: string; rule: string; field: string; to: unknown; title: string };

const offered: readonly Offered[] = faults.flatMap((fault) =>
  checkText(faultyText(fault), noHouse).findings.flatMap(({ rule, repairs }) =>
    repairs.flatMap(({ title, changes }) =>
      changes.flatMap((change) => {
        if (!('set' in change)) return [];
        const field = change.set.join('.').replace(/^stages\.\d+\.changes\./, '');
        return [{ fault: fault.id, rule, field, to: change.to, title }];
      }),
    ),
  ),
);

function toField(field: RegExp, but = (_: Offered) => false): [string, Offered][] {
  return offered.filter((one) => field.test(one.field) && !but(one)).map((one) => [`${one.fault}: ${one.title}`, one]);
}

function numberOf({ field, to }: Offered): { value: number; unit: string } {
  const dimension = fieldSchema(field as FieldPath)?.dimension;
  const quantity = dimension && parseQuantity(String(to), dimension);
  if (!quantity || !isQuantity(quantity)) throw new Error(`${field} is given ${String(to)}`);
  return quantity;
}

function isAmong(value: number, sizes: readonly number[]): boolean {
  return sizes.some((size) => Math.abs(value / size - 1) < 1e-3);
}

describe('repairs of the faults take sizes that are sold', () => {
  it.each(toField(/static-flow$/, ({ title }) => title.includes('the middle of')))('injectors: %s', (_, one) => {
    const { value, unit } = numberOf(one);
    const factor = findUnit('injector-flow', unit)?.factor ?? 1;
    expect(isAmong(value, [...injectorFlows, ...renard20(factor, 1, 5000)])).toBe(true);
  });

  it.each(toField(/inside-diameter$/))('hose: %s', (_, one) => {
    expect(isAmong(numberOf(one).value, [...hoseBores.inch, ...hoseBores.metric])).toBe(true);
  });

  it.each(toField(/-circuit\.wire$/))('wire: %s', (_, one) => {
    expect(isAmong(numberOf(one).value, [...wireSizes.gauge, ...wireSizes.metric])).toBe(true);
  });

  it.each(toField(/-circuit\.fuse$/))('fuse: %s', (_, one) => {
    expect(isAmong(numberOf(one).value, fuseRatings)).toBe(true);
  });

  it.each(toField(/regulator\.pressure$/))('setting of the regulator: %s', (_, one) => {
    expect(isAmong(numberOf(one).value, [296.5e3, 299.9e3, 3e5, 4e5])).toBe(true);
  });
});

describe('injectors offered for the faults', () => {
  const repaired = faults.flatMap((fault) => {
    const checked = checkText(faultyText(fault), noHouse);
    return checked.findings.flatMap((finding) =>
      finding.repairs.some(({ title }) => /^(Now: )?Fit injectors/.test(title))
        ? verifiedRepairs(checked, finding)
            .filter(({ title }) => /^(Now: )?Fit injectors/.test(title) && !title.includes('the middle of'))
            .map(({ title, edits }) => [`${fault.id}: ${title}`, applyEdits(checked.sheet.text, edits)] as const)
        : [],
    );
  });

  it.each(repaired)('run in the middle: %s', (_, text) => {
    for (const figures of figuresOf(text).values()) {
      const [duty, pulse] = [figures.get('duty-peak-power'), figures.get('idle-pulse-margin')];
      expect(duty?.value ?? 0).toBeLessThanOrEqual(0.76);
      expect(pulse?.value ?? 2).toBeGreaterThanOrEqual(1.24);
    }
  });
});

describe('repairs of the faults treat the cause', () => {
  const first = (fault: string, rule: string) => offered.find((one) => one.fault === fault && one.rule === rule)?.title;

  it.each([
    ['set-pressure-high', 'fuel-supply/pump-flow-short', /^Set the regulator to 300 kPa/],
    ['coil-of-three-ohms', 'ignition/coil-not-saturated', /^Fit a coil for an electronic driver/],
    ['displacement-slip', 'engine/power-below-reach', /^Write 1\.6 L/],
    ['feed-takes-the-pressure', 'fuel-supply/feed-takes-pressure', /^Run a feed line of 6 mm/],
  ])('%s', (fault, rule, title) => {
    expect(first(fault, rule)).toMatch(title);
  });

  it('and never claim more than is usual for the engine, nor attest', () => {
    const claims = offered.filter(({ field, rule }) => /power$/.test(field) && rule === 'engine/power-out-of-reach');
    expect(claims.length).toBeGreaterThan(2);
    for (const { title } of claims) expect(title).toContain('usual for such an engine');
    for (const { field, to } of offered) {
      const attested = fieldSchema(field as FieldPath)?.attested as readonly unknown[] | undefined;
      expect(attested?.includes(to) ?? false, `${field} is set to ${String(to)}`).toBe(false);
    }
  });
});
