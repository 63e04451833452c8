import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { findingsOf } from '../reference/product.ts';
import { faults, judge, soundSheets, soundText } from './variant.ts';

type Known = Record<'silent' | 'wrong', Record<string, string>>;
const known: Known = parse(readFileSync(new URL('known.yaml', import.meta.url), 'utf8'));

describe('sound sheets', () => {
  it('are at least twenty', () => {
    expect(soundSheets.length).toBeGreaterThanOrEqual(20);
  });

  it.each(soundSheets)('nothing above information in %s', (name) => {
    const heavy = findingsOf(soundText(name)).filter(({ severity }) => severity === 'error' || severity === 'warning');
    expect(heavy).toEqual([]);
  });
});

describe('single faults', () => {
  it('are at least a hundred, each of its own name, on sound sheets', () => {
    const ids = faults.map(({ id }) => id);
    expect(ids.length).toBeGreaterThanOrEqual(100);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
    expect(faults.filter(({ on }) => !soundSheets.includes(on)).map(({ id }) => id)).toEqual([]);
  });

  it('are known to be silent or wrongly told only where there is such a fault', () => {
    const ids = faults.map(({ id }) => id);
    const listed = [...Object.keys(known.silent), ...Object.keys(known.wrong)];
    expect(listed.filter((id) => !ids.includes(id))).toEqual([]);
  });

  it.each(faults.map((fault) => [fault.id, fault] as const))('%s', (id, fault) => {
    const { told, wrong, found } = judge(fault);
    const seen = found.map(({ severity, rule, field }) => `${severity} ${rule} at ${field}`);
    expect(found.filter(({ rule }) => rule.startsWith('sheet/'))).toEqual([]);
    expect(told, `${fault.why} Found: ${seen.join('; ') || 'nothing'}`).toBe(!(id in known.silent));
    expect(wrong.length > 0, `Told besides: ${seen.join('; ')}`).toBe(id in known.wrong);
  });
});
