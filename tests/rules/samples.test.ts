import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkText } from '../../server/src/checking/checked.ts';
import { areas } from '../../server/src/checking/rule.ts';
import { rules } from '../../server/src/generated/rules.ts';
import { noHouse } from '../../server/src/sheet/house.ts';

const SAMPLES = 'samples';

/** What a sample's header promises: `# finding: <rule>` and `# problem: <code>` lines, or `# findings: none`. */
type Promised = { findings: string[]; problems: string[]; isClean: boolean };

const samples = readdirSync(SAMPLES)
  .filter((file) => file.endsWith('.build.yaml'))
  .map((file) => {
    const text = readFileSync(join(SAMPLES, file), 'utf8');
    return { file, text, promised: promisedIn(text) };
  });

function promisedIn(text: string): Promised {
  const lines = text.split(/\r?\n/);
  const header = lines.slice(
    0,
    lines.findIndex((line) => !line.startsWith('#')),
  );
  const words = (mark: string) => header.filter((line) => line.startsWith(mark)).map((line) => line.slice(mark.length));
  return {
    findings: words('# finding: ').toSorted(),
    problems: words('# problem: ').toSorted(),
    isClean: header.includes('# findings: none'),
  };
}

describe.each(samples)('$file', ({ text, promised }) => {
  const { sheet, findings } = checkText(text, noHouse);

  it('promises findings or none', () => {
    expect(promised.isClean).toBe(promised.findings.length + promised.problems.length === 0);
  });

  it('has exactly the findings its header promises', () => {
    expect(findings.map(({ rule }) => rule).toSorted()).toEqual(promised.findings);
  });

  it('has exactly the problems its header promises', () => {
    expect(sheet.problems.map(({ code }) => code).toSorted()).toEqual(promised.problems);
  });
});

describe('the samples together', () => {
  const shown = new Set(samples.flatMap(({ promised }) => promised.findings));

  it('are at least five good and some bad ones', () => {
    const clean = samples.filter(({ promised }) => promised.isClean);
    expect(clean.length).toBeGreaterThanOrEqual(5);
    expect(samples.length - clean.length).toBeGreaterThanOrEqual(5);
  });

  it('promise only rules there are', () => {
    const known = new Set<string>(rules.map(({ id }) => id));
    expect([...shown].filter((id) => !known.has(id))).toEqual([]);
  });

  it.each(Object.keys(areas))('show the rules of %s', (area) => {
    expect([...shown].some((id) => id.startsWith(`${area}/`))).toBe(true);
  });

  it('are told in the README', () => {
    const readme = readFileSync(join(SAMPLES, 'README.md'), 'utf8');
    expect(samples.map(({ file }) => file).filter((file) => !readme.includes(file))).toEqual([]);
  });
});
