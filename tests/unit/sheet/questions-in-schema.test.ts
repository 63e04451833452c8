import { describe, expect, it } from 'vitest';
import { questionText } from '../../../server/src/features/questions.ts';
import { type FieldPath, fieldSchema } from '../../../server/src/sheet/path.ts';
import { root, schemaAt } from '../../../server/src/sheet/schema.ts';
import { fieldsUnder } from './schema-fields.ts';

const fields = fieldsUnder(root);

describe('every field of a sheet', () => {
  it('has a question in plain words', () => {
    expect(fields.filter(({ schema }) => !schema.question).map(({ path }) => path)).toEqual([]);
    const odd = fields.filter(
      ({ schema: { question = '' } }) => !/^[A-Z][^`_]*\?( [A-Z][^`]*\.)?$/.test(question.replace('{part}', 'part')),
    );
    expect(odd.map(({ schema }) => schema.question)).toEqual([]);
  });

  it('has no name of a field of two words in its question', () => {
    const names = new Set(fields.map(({ path }) => path.split('.').at(-1) ?? '').filter((name) => name.includes('-')));
    for (const word of ['pre-filter', 'manifold-pressure']) names.delete(word);
    const told = fields.filter(({ schema: { question = '' } }) => [...names].some((name) => question.includes(name)));
    expect(told.map(({ schema }) => schema.question)).toEqual([]);
  });

  it('says of which part it asks where several share it', () => {
    const asked = fields.map(({ path }) => questionText(path as FieldPath));
    expect(asked.filter((text) => /\{part\}|\bthe part\b/.test(text))).toEqual([]);
    expect(questionText('fuel-system.return.inside-diameter')).toContain('the return line');
    expect(questionText('engine.intake.flange')).toContain('the pad of the intake manifold');
  });
});

describe('every section of a sheet', () => {
  const sections = fields.filter(({ schema }) => schema.type === 'object');

  it('says which fields to begin with, and they are there', () => {
    expect(sections.filter(({ schema }) => !schema.first).map(({ path }) => path)).toEqual([]);
    const gone = sections.flatMap(({ path, schema: { first = [], properties = {} } }) =>
      first.filter((name) => !properties[name]).map((name) => `${path}.${name}`),
    );
    expect(gone).toEqual([]);
  });
});

describe('a field that makes sense only with another', () => {
  it('names a field that is there and values it can have', () => {
    const bound = fields.flatMap(({ written, schema }) => written.only ?? schema.only ?? []);
    expect(bound.length).toBeGreaterThan(10);
    for (const { field, is, usual } of bound) {
      const schema = fieldSchema(field as FieldPath) ?? schemaAt(field.split('.'));
      expect(schema, field).toBeDefined();
      for (const value of [...is, ...(usual === undefined ? [] : [usual])]) {
        if (schema?.enum) expect(schema.enum, field).toContain(value);
        else expect(typeof value, field).toBe(schema?.type === 'integer' ? 'number' : schema?.type);
      }
    }
  });
});
