import { readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { allChecks } from './all-checks.ts';
import { allowedDifference, passes } from './check.ts';
import { page, sections, summary } from './table.ts';

const checks = await allChecks();
const passed = new Set<string>();

describe('outside checks', () => {
  for (const check of checks) {
    it(`${check.id} ${check.what}`, () => {
      const got = check.got();
      if (!passes(check, got)) {
        expect.fail(
          `${check.id}: got ${got} ${check.unit}, expected ${check.expected} within ${allowedDifference(check)} (${check.source})`,
        );
      }
      passed.add(check.id);
    });
  }

  afterAll(() => console.log(summary(checks, passed)));
});

describe('the set of outside checks', () => {
  it('has ids that are unique', () => {
    const ids = checks.map((check) => check.id);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
  });

  it('names a source, a unit and a tolerance in every check', () => {
    const lacking = checks.filter(
      ({ source, unit, tolerance }) =>
        !source || !unit || (tolerance.relative === undefined && tolerance.absolute === undefined),
    );
    expect(lacking.map((check) => check.id)).toEqual([]);
  });

  it('has at least a hundred checks and five in each section from 1 to 22', () => {
    expect(checks.length).toBeGreaterThanOrEqual(100);
    for (let section = 1; section <= 22; section++) {
      const count = checks.filter((check) => check.section === section).length;
      expect(count, `section ${section}, ${sections[section]}`).toBeGreaterThanOrEqual(5);
    }
  });

  it('fails a check whose figure is off by more than the tolerance', () => {
    const check = { ...checks[0], expected: 10, tolerance: { relative: 0.01 } } as (typeof checks)[number];
    expect(passes(check, 10.05)).toBe(true);
    expect(passes(check, 10.2)).toBe(false);
    expect(passes(check, Number.NaN)).toBe(false);
  });

  it('is what the reference page shows (refresh with: npx tsx scripts/reference-table.ts)', () => {
    const committed = readFileSync(new URL('../../schemas/reference/outside-checks.md', import.meta.url), 'utf8');
    expect(committed).toBe(page(checks));
  });
});
