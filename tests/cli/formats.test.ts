import { readdirSync, readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import AjvDraft04 from 'ajv-draft-04';
import addFormats from 'ajv-formats';
import { describe, expect, it } from 'vitest';
import { validateXML } from 'xmllint-wasm';
import { version } from '../../package.json';
import type { CheckResult, ToldAt } from '../../server/src/cli/check-result.ts';
import type { Format } from '../../server/src/cli/formats/format.ts';
import { type FormatName, formatNames, formats } from '../../server/src/cli/formats/formats.ts';
import { program } from './program.ts';

const told: ToldAt = {
  rule: 'plan/part-outgrown',
  found: 'throttle-body/duty',
  severity: 'error',
  message: 'Enough today: 100 % of <"R&D">, not of the blower.',
  field: 'throttle-body.injectors',
  stages: ['blower, 2nd'],
  identity: 'throttle-body/duty throttle-body.injectors in blower, 2nd',
  identities: ['throttle-body/duty throttle-body.injectors in blower, 2nd'],
  start: { line: 12, column: 3 },
  end: { line: 12, column: 12 },
  excerpt: { line: '  injectors: { quantity: 4, static-flow: 62 lb/h }', from: 2, to: 11 },
  related: [{ path: 'shop a/one.build.yaml', start: { line: 3, column: 1 }, message: 'The power asks for it.' }],
  repairs: ['Now: Fit injectors of 115 lb/h at 43.5 psi'],
};

/** A result with all that a result can have, and texts that each format has to escape. */
const result: CheckResult = {
  files: [
    {
      path: 'shop a/one.build.yaml',
      open: 2,
      points: 0,
      told: [
        { ...told, rule: 'paper/no-title', found: 'paper/no-title', severity: 'hint', message: 'No title.', field: '' },
        told,
        { ...told, severity: 'warning', message: 'Two\nlines, 50 %: a\u0000b', repairs: [], related: [] },
        { ...told, severity: 'information', accepted: 'The owner: "fine".' },
      ],
    },
    { path: 'two.build.yaml', open: 0, points: 0, told: [] },
  ],
  complaints: [{ path: 'shop a/three.build.yaml', message: 'it is not a regular file.' }],
  faults: [],
};

const look = { hasColor: false, columns: 72 };
const nothing: CheckResult = {
  files: [{ path: 'two.build.yaml', open: 0, points: 0, told: [] }],
  complaints: [],
  faults: [],
};

function shown(format: FormatName, one: CheckResult): string {
  const write: Format = formats[format];
  return write(one, look);
}

const samples = readdirSync('samples', { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.(build|parts|config)\.yaml$/.test(name))
  .toSorted();

/** What a check of all samples says, in a format. */
const known = new Map<FormatName, string>();
async function checked(format: FormatName): Promise<string> {
  const before = known.get(format);
  if (before !== undefined) return before;
  const { out, complaints } = await program(['check', '--format', format, 'samples']);
  expect(complaints).toBe('');
  known.set(format, out);
  return out;
}

/** The findings of the samples as JSON tells them. */
type Finding = {
  id: string;
  rule: string;
  severity: string;
  message: string;
  accepted?: string;
  start: { line: number };
};
async function findings(): Promise<{ path: string; findings: Finding[] }[]> {
  return JSON.parse(await checked('json')).files;
}

describe('a format', () => {
  it.each(formatNames)('%s shows a result', (format) => {
    expect(shown(format, result).replaceAll(version, '0.0.0')).toMatchSnapshot();
  });

  it.each(formatNames)('%s shows that nothing was found', (format) => {
    expect(shown(format, nothing).replaceAll(version, '0.0.0')).toMatchSnapshot();
  });

  it.each(formatNames)('%s tells every finding of the samples', async (format) => {
    const out = await checked(format);
    const files = await findings();
    expect(files.map(({ path }) => path)).toEqual(samples.map((name) => `samples/${name}`));
    if (format === 'github') return;
    const flat = (text: string) => text.replaceAll(/&\w+;|\s+|\\"|["'<>&]/g, '');
    for (const { findings: all } of files)
      for (const { rule, message, accepted } of all) {
        if (accepted !== undefined) continue;
        expect(out.includes(rule), rule).toBe(true);
        expect(flat(out).includes(flat(message)), message).toBe(true);
      }
  });
});

describe('excerpt', () => {
  it('shows the mark in a line that is too long, whatever stands before it', () => {
    const wide = `${'x'.repeat(90)} 日本 here ${'y'.repeat(90)}`;
    const from = wide.indexOf('here');
    const one = { ...told, excerpt: { line: wide, from, to: from + 4 } };
    const out = formats.excerpt(
      { ...nothing, files: [{ path: 'a', open: 0, points: 0, told: [one] }] },
      { ...look, columns: 60 },
    );
    const [, line = '', mark = ''] = out.split('\n');
    expect(line).toContain('日本 here');
    expect(line.length).toBeLessThanOrEqual(60);
    expect(mark.indexOf('^')).toBe(line.indexOf('here') + 2);
  });

  it('colors on a terminal only', () => {
    const control = '\u001b[';
    expect(formats.excerpt(result, { ...look, hasColor: true })).toContain(control);
    expect(formats.excerpt(result, look)).not.toContain(control);
  });

  it('lets no text of a sheet move the cursor', async () => {
    const { out } = await program(['check', '-'], {
      input: 'format: 1\n"\u001b[31mred\u009b": 3 # \u001b]0;title\u0007\n',
    });
    expect(out).toContain('sheet/unknown-field');
    expect(out.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
  });
});

describe('json', () => {
  const validate = new Ajv({ allErrors: true }).compile(
    JSON.parse(readFileSync('schemas/output/check.schema.json', 'utf8')),
  );
  it('keeps to its schema', async () => {
    for (const text of [await checked('json'), shown('json', result), shown('json', nothing)]) {
      validate(JSON.parse(text));
      expect(validate.errors ?? []).toEqual([]);
    }
  });

  it('tells what is wrong with the call', async () => {
    const { code, out, complaints } = await program(['check', '--format=json', '--fail-on', 'never']);
    expect(code).toBe(2);
    expect(complaints).toMatch(/--fail-on takes one of/);
    validate(JSON.parse(out));
    expect(validate.errors ?? []).toEqual([]);
    expect(JSON.parse(out).errors[0].message).toMatch(/--fail-on takes one of/);
  });
});

describe('sarif', () => {
  const ajv = new AjvDraft04({ allErrors: true, strict: false });
  addFormats(ajv);
  const validate = ajv.compile(JSON.parse(readFileSync('tests/cli/standards/sarif-schema-2.1.0.json', 'utf8')));

  it('keeps to the standard', async () => {
    for (const text of [await checked('sarif'), shown('sarif', result), shown('sarif', nothing)]) {
      validate(JSON.parse(text));
      expect(validate.errors ?? []).toEqual([]);
    }
  });

  it('knows each finding again by what does not move', async () => {
    const { results } = JSON.parse(await checked('sarif')).runs[0];
    const prints = results.map(
      (one: {
        partialFingerprints: object;
        locations: { physicalLocation: { artifactLocation: { uri: string } } }[];
      }) => JSON.stringify([one.locations[0]?.physicalLocation.artifactLocation.uri, one.partialFingerprints]),
    );
    expect(new Set(prints).size).toBe(prints.length);
    const sheet = readFileSync('samples/overreach-roadster.build.yaml', 'utf8');
    const printsOf = async (input: string) => {
      const { out } = await program(['check', '-f', 'sarif', '-'], { input });
      return JSON.parse(out).runs[0].results.map((one: { partialFingerprints: object }) => one.partialFingerprints);
    };
    expect(await printsOf(`# one\n# two\n${sheet}`)).toEqual(await printsOf(sheet));
    const later = sheet.replace(/^stages:\n/m, 'stages:\n  - { name: as bought, power: 180 hp, induction: natural }\n');
    const after = JSON.stringify(await printsOf(later));
    for (const print of await printsOf(sheet)) expect(after).toContain(JSON.stringify(print));
  });
});

describe('junit', () => {
  const schema = [{ fileName: 'junit.xsd', contents: readFileSync('tests/cli/standards/junit.xsd', 'utf8') }];
  it('keeps to the schema', async () => {
    for (const contents of [await checked('junit'), shown('junit', result), shown('junit', nothing)]) {
      const { valid, errors } = await validateXML({ xml: [{ fileName: 'check.xml', contents }], schema });
      expect(errors).toEqual([]);
      expect(valid).toBe(true);
    }
  });
});

describe('github', () => {
  it('keeps within what the host shows, errors first, and says what is left out', () => {
    const many = Array.from({ length: 30 }, (_, index) => [
      { ...told, severity: 'hint' as const },
      { ...told, severity: 'warning' as const },
      { ...told, message: `error ${index}` },
    ]).flat();
    const out = shown('github', { ...nothing, files: [{ path: 'a', open: 0, points: 0, told: many }] });
    const kinds = out
      .trimEnd()
      .split('\n')
      .map((line) => line.split(/[ :]+/)[1]);
    expect(kinds).toEqual([...Array(10).fill('error'), ...Array(10).fill('warning'), ...Array(10).fill('notice')]);
    expect(out).toContain('61 more findings');
  });
});

describe('gitlab', () => {
  it('gives every finding a fingerprint of its own', async () => {
    const issues: { fingerprint: string }[] = JSON.parse(await checked('gitlab'));
    expect(issues.length).toBeGreaterThan(50);
    expect(new Set(issues.map(({ fingerprint }) => fingerprint)).size).toBe(issues.length);
  });
});
