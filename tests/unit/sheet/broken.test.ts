import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { pathText } from '../../../server/src/sheet/entry.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { read } from './marked.ts';

const samples = readdirSync('samples')
  .filter((name) => name.endsWith('.build.yaml'))
  .map((name) => [name, readFileSync(`samples/${name}`, 'utf8')] as const);

/** The rules that find something, each with its field. */
function found(text: string): Set<string> {
  return new Set(checkText(text, noHouse).findings.map(({ found, path }) => `${found} at ${pathText(path)}`));
}

/** The text with a half-typed field above every fourth of its fields in turn, and the line it stands above. */
function halfTyped(text: string): [line: string, text: string][] {
  const lines = text.split('\n');
  return lines.flatMap((line, index) => {
    const indent = /^( *)[a-z][\w-]*:/.exec(line)?.[1];
    if (indent === undefined || index % 4 > 0) return [];
    return [[line, [...lines.slice(0, index), `${indent}zqx`, ...lines.slice(index)].join('\n')]];
  });
}

describe('a half-typed field', () => {
  it.each(samples)('brings no finding that was not there: %s', { timeout: 60_000 }, (_, text) => {
    const before = found(text);
    for (const [line, changed] of halfTyped(text)) {
      const brought = [...found(changed)].filter((one) => !before.has(one));
      expect(brought, `above ${line}`).toEqual([]);
    }
  });

  it('leaves most findings where they are', { timeout: 60_000 }, () => {
    for (const name of ['counter-note', 'orchard-pickup', 'saddle-coupe']) {
      const text = readFileSync(`samples/${name}.build.yaml`, 'utf8');
      const before = [...found(text)];
      const kept = halfTyped(text).map(([, changed]) => before.filter((one) => found(changed).has(one)).length);
      expect(kept.reduce((sum, one) => sum + one) / kept.length).toBeGreaterThan(0.8 * before.length);
    }
  });

  it('is the only problem more, whatever follows it', () => {
    for (const [, text] of samples) {
      const known = read(text).problems.length;
      for (const [line, changed] of halfTyped(text)) {
        const marks = read(changed).problems.map(({ range }) => changed.slice(range.start, range.end));
        expect(marks, `above ${line}`).toContain('zqx');
        expect(marks.length, `above ${line}`).toBe(known + 1);
      }
    }
  });
});

describe('what stands in a broken line', () => {
  it.each([
    ['fuel-system:\n  tank: { vent: true\n  pump: { placement: in-tank }\n', ['fuel-system.tank']],
    ['engine:\n  cylinders: 8\n  idle 700 rpm\n', ['engine']],
    ['engine:\n  cylinders: 8\n   idle: 700 rpm\n', ['engine.idle']],
    ['engine:\n  cylinders: 8\n intake: { pads: 1 }\n', ['engine.intake']],
    ['engin: { cylinders: 8 }\n', ['engine']],
    ['engine: { cylinders: 8 }\nfuel sys\n', ['']],
    ['stages:\n  - name: a\n    pow\n  - name: b\n', ['stages[0]']],
    ['stages:\n  - nam\n    power: 300 hp\n  - name: b\n', ['stages[0]']],
    ['stages:\n  -name: a\n  - name: b\n', ['stages']],
    ['engine: { displacement: 5.7 Q }\n', ['engine.displacement']],
    ['engine: { displacement: *nowhere }\n', ['engine.displacement']],
  ])('is unread: %j', (text, unread) => {
    expect([...new Set(read(`format: 1\n${text}`).unread.map(pathText))]).toEqual(unread);
  });

  it('is not called missing', () => {
    const sample = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
    const line = /^ {2}pre-filter: .*$/m;
    const missing = 'fuel-supply/no-pre-filter at fuel-system.pump';
    expect(found(sample.replace(line, '  # none'))).toContain(missing);
    expect(found(sample.replace(line, '  pre-filter'))).not.toContain(missing);
    expect(found(sample.replace(line, '  prefilter: { rating: 100 um }'))).not.toContain(missing);
    expect(found(sample.replace(line, '  pre-filter { rating: 100 um }'))).not.toContain(missing);
    expect(found(sample.replace(line, '').replace('engine:', 'engine'))).toContain(missing);
  });
});

describe('a broken text of characters that look like spaces', () => {
  it.each(['\t\ufeff', '\t\u00a0', '\t\u2028', 'format: 1\n\t\ufeff', '\t'])('is read to its end: %j', (text) => {
    expect(read(text).text).toBe(text);
  });
});
