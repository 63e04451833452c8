import { readdirSync, readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { validateConfig, validateSheet } from '../../../server/src/generated/validate.js';

const read = (name: string) => JSON.parse(readFileSync(`schemas/reference/${name}.schema.json`, 'utf8'));
const ajv = new Ajv({ schemas: [read('parts')], strict: false, allErrors: true });
const published = ajv.compile(read('build-sheet'));
const publishedHouse = ajv.compile(read('build-sheet.config'));

const samples = readdirSync('samples')
  .filter((name) => name.endsWith('.build.yaml'))
  .map((name) => [name, parse(readFileSync(`samples/${name}`, 'utf8'), { merge: true })] as const);

/** Every value within another, each emptied in a copy of the whole. */
function* emptied(value: unknown): Generator<unknown> {
  if (typeof value !== 'object' || value === null) return;
  for (const [name, inner] of Object.entries(value)) {
    const without = (other: unknown) =>
      Array.isArray(value) ? value.with(Number(name), other) : { ...value, [name]: other };
    yield without(null);
    for (const other of emptied(inner)) yield without(other);
  }
}

describe('the published schema', () => {
  it.each(samples)('takes what this tool takes, and the same with any one field left empty: %s', (_, sheet) => {
    expect(published(sheet)).toBe(validateSheet(sheet));
    for (const other of emptied(sheet)) expect(published(other), JSON.stringify(other)).toBe(validateSheet(other));
  });

  it('takes an empty field, but for those that must be there', () => {
    expect(published({ format: 1, engine: { idle: null, intake: null }, stages: [null], fuel: null })).toBe(true);
    expect(published({ format: null })).toBe(false);
    expect(published({ format: 1, engine: { idel: null } })).toBe(false);
  });

  it('of house rules takes empty fields as well', () => {
    for (const house of [{}, { units: null }, { limits: { 'largest-duty': null } }, { units: 'cubits' }])
      expect(publishedHouse(house)).toBe(validateConfig(house));
    expect(publishedHouse({ units: null })).toBe(true);
  });
});
