import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { offeredRepairs } from '../../../server/src/checking/repair.ts';
import { UNLIKELY } from '../../../server/src/checking/unlikely.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';

function unlikelyIn(text: string) {
  const checked = checkText(text, noHouse);
  return checked.findings
    .filter(({ rule }) => rule === UNLIKELY)
    .map((finding) => ({
      at: finding.path.join('.'),
      repairs: offeredRepairs(checked, finding).map(({ title }) => title),
    }));
}

describe('a value far from what is usual', () => {
  it.each([
    ['fuel-system: { tank: { capacity: 600 L } }', 'fuel-system.tank.capacity', ['Write "60 L"']],
    ['fuel-system: { tank: { capacity: 1.2 gal } }', 'fuel-system.tank.capacity', ['Write "12 gal"']],
    ['site: { hottest: 3.8 degC }', 'site.hottest', ['Write "38 degC"']],
    ['fuel-system: { feed: { elbows-90: 30 } }', 'fuel-system.feed.elbows-90', ['Write "3"']],
    ['fuel-system: { filter: { loss-at: 2000 L/h +/- 100 L/h } }', 'fuel-system.filter.loss-at', []],
  ])('is asked about: %s', (text, at, repairs) => {
    expect(unlikelyIn(`format: 1\n${text}\n`)).toEqual([{ at, repairs }]);
  });

  it('is asked about where a stage changes it', () => {
    const text =
      'format: 1\nstages:\n  - name: now\n  - name: later\n    changes: { fuel-system: { tank: { capacity: 700 L } } }\n';
    expect(unlikelyIn(text)).toEqual([{ at: 'stages.1.changes.fuel-system.tank.capacity', repairs: ['Write "70 L"'] }]);
  });

  it('is accepted for a reason', () => {
    const text = `format: 1\nfuel-system: { tank: { capacity: 600 L } }\nsilence: [{ rule: ${UNLIKELY}, reason: a boat }]\n`;
    const { findings, accepted } = checkText(text, noHouse);
    expect(findings.map(({ rule }) => rule)).not.toContain(UNLIKELY);
    expect(accepted.map(({ finding }) => finding.rule)).toEqual([UNLIKELY]);
  });

  it('is not zero', () => {
    expect(unlikelyIn('format: 1\nelectrical: { fan-load: 0 A }\n')).toEqual([]);
  });

  it.each(readdirSync('samples').filter((name) => name.endsWith('.build.yaml') && name !== 'night-shift.build.yaml'))(
    'is not in %s',
    (name) => {
      expect(unlikelyIn(readFileSync(`samples/${name}`, 'utf8'))).toEqual([]);
    },
  );
});
