import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { folderWith, program } from './program.ts';

const CATALOG = readFileSync('samples/counter/shelf.parts.yaml', 'utf8');
const HOUSE = "catalogs: ['*.parts.yaml']\ncurrency: USD\n";
const PHONE = readFileSync('samples/counter/counter-call.build.yaml', 'utf8');
const WAGON = readFileSync('samples/counter/shelf-wagon.build.yaml', 'utf8');
const PATIENT = { timeout: 240_000 };

const counter = (files: Record<string, string> = {}) =>
  folderWith({
    'build-sheet.config.yaml': HOUSE,
    'shelf.parts.yaml': CATALOG,
    'phone.build.yaml': PHONE,
    'wagon.build.yaml': WAGON,
    ...files,
  });

describe('build-sheet fit', () => {
  it('chooses for all that is open, tells why the next best do not, and what is left of a hose', PATIENT, async () => {
    const { code, out, complaints } = await program(['fit', 'phone.build.yaml'], { cwd: counter() });
    expect([code, complaints]).toEqual([0, '']);
    expect(out).toMatch(/^Parts that do it together: \d+\.\d\d USD in all\./);
    expect(out).toMatch(
      /The fuel supply, tried together, has \d ways that no other beats, of [\d,]+ combinations tried;/,
    );
    expect(out).toMatch(/for 2 runs: \d+ to buy, \d+\.\d\d USD, [\d.]+ m left over\./);
    expect(out).toMatch(/Not, the nearest first, and \d+ more:\n\n- tank-pump|Not, the nearest first/);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(110);
  });

  it('chooses for one slot, with how much each part costs and what it is best at', PATIENT, async () => {
    const cwd = counter();
    const { code, out } = await program(['fit', '--slot', 'pump', 'wagon.build.yaml'], { cwd });
    expect(code).toBe(0);
    expect(out).toMatch(/^Fuel pump \(now tank-pump-\d+\): of 11, these do it in every stage/);
    expect(out).toMatch(/: \d+\.\d\d USD; least margin \d+ %;[\s\S]*?best at cost/);
    expect(await program(['fit', '-s', 'pump', 'wagon.build.yaml'], { cwd })).toMatchObject({ code: 0, out });
  });

  it('writes Markdown and JSON', PATIENT, async () => {
    const cwd = counter();
    const { out: markdown } = await program(['fit', '-s', 'pump', '-f', 'markdown', 'wagon.build.yaml'], { cwd });
    expect(markdown).toContain('**Fuel pump**');
    const { out } = await program(['fit', '-s', 'pump', '--format', 'json', 'wagon.build.yaml'], { cwd });
    const data = JSON.parse(out);
    expect(data).toMatchObject({ version: 1, hasCatalog: true, currency: 'USD' });
    expect(data.choice.slot).toBe('pump');
    expect(data.choice.options[0].placings[0]).toMatchObject({
      slot: 'pump',
      part: expect.stringMatching(/^tank-pump/),
    });
    expect(data.choice.missed.every(({ rule, reason }: { rule: string; reason: string }) => rule && reason)).toBe(true);
    expect(data.choice.options.length + data.choice.alsoFit + data.choice.missed.length).toBe(data.choice.tried);
  });

  it('tells what a part that is outgrown costs now and later', PATIENT, async () => {
    const later = WAGON.replace(
      '{ name: camshaft, power: 290 hp, induction: natural }',
      '{ name: blower, power: 390 hp, induction: roots, boost: 5 psi }',
    );
    const { out } = await program(['fit', '-s', 'manifold-pressure-sensor', 'wagon.build.yaml'], {
      cwd: counter({ 'wagon.build.yaml': later }),
    });
    expect(out).toMatch(/The cost of waiting: /);
    expect(out).toMatch(/manifold-pressure sensor, outgrown in "blower": map-207 now is 47\.85 USD; map-108 now/);
  });

  it('says that a sheet has all its parts', PATIENT, async () => {
    const { code, out } = await program(['fit', 'wagon.build.yaml'], { cwd: counter() });
    expect(code).toBe(0);
    expect(out).toMatch(/^Every part of this sheet is chosen/);
  });

  it('tells the needs as sizes where no catalog is named', PATIENT, async () => {
    const cwd = folderWith({ 'phone.build.yaml': PHONE });
    const { code, out, complaints } = await program(['fit', 'phone.build.yaml'], { cwd });
    expect(code).toBe(0);
    expect(complaints).toMatch(/name no catalog, so what the parts must be is told instead/);
    expect(out).toMatch(/- static flow of each of 4 at 43\.5 psi: [\d.]+ lb\/h to [\d.]+ lb\/h \(sizes: /);
  });

  it.each([
    [['fit', '--slot', 'pmup', 'phone.build.yaml'], /There is no slot "pmup"; it is one of throttle-body, .*pump,/],
    [['fit', '--slot', '__proto__', 'phone.build.yaml'], /There is no slot "__proto__"/],
    [['fit', '--format', 'csv', 'phone.build.yaml'], /csv/],
    [['fit'], /fit takes one sheet/],
    [['fit', 'phone.build.yaml', 'wagon.build.yaml'], /fit takes one sheet/],
    [['fit', 'gone.build.yaml'], /gone\.build\.yaml/],
    [['fit', 'shelf.parts.yaml'], /this is no build sheet|one sheet/],
    [['fit', '--sheet', 'phone.build.yaml'], /--sheet/],
  ])('refuses %s', PATIENT, async (args, told) => {
    const { code, out, complaints } = await program(args, { cwd: counter() });
    expect([code, out]).toEqual([2, '']);
    expect(complaints).toMatch(told);
  });

  it('answers for a sheet that is broken, from the standard input too', PATIENT, async () => {
    const cwd = counter();
    expect((await program(['fit', '-s', 'pump', '-'], { cwd, input: 'stages: [' })).code).toBe(0);
  });
});

describe('build-sheet fit with a hostile catalog', () => {
  const head = 'format: 1\nparts:\n';
  const pump = (id: string, flow = 240) =>
    `  - { id: ${id}, cost: 90, pump: { placement: in-tank, flow-at: [[40 psi, ${flow} L/h], [75 psi, 170 L/h]], rated-voltage: 13.5 V, current: 9 A, relief-pressure: 104 psi } }\n`;
  const fitWith = (catalog: string) =>
    program(['fit', '-s', 'pump', 'wagon.build.yaml'], { cwd: counter({ 'shelf.parts.yaml': catalog }) });

  it('of a part of a megabyte chooses among the others', PATIENT, async () => {
    const { code, out } = await fitWith(
      `${head}  - { id: huge, note: "${'x'.repeat(1_100_000)}", pump: {} }\n${pump('p-1')}`,
    );
    expect(code).toBe(0);
    expect(out).toMatch(/^Fuel pump.*: of 1, these do it in every stage/);
    expect(out.length).toBeLessThan(5000);
  });

  it('of a hundred thousand parts, most alike, answers in a page', PATIENT, async () => {
    const many = Array.from({ length: 100_000 }, (_, index) =>
      index % 50 === 0 ? pump(`p-${index}`, 200 + (index % 3)) : `  - { id: c-${index}, coil: {} }\n`,
    );
    const { code, out } = await fitWith(head + many.join(''));
    expect(code).toBe(0);
    expect(out).toMatch(/^Fuel pump.*: of 2000, these do it in every stage, \d+ more/);
    expect(out.length).toBeLessThan(5000);
  });

  it('of an id given a thousand times takes the first', PATIENT, async () => {
    const { out } = await fitWith(head + pump('twin', 60) + pump('twin').repeat(999));
    expect(out).toMatch(/^Fuel pump.*: none of 1 does it/);
  });

  it('of no part that can be read says that it has none', PATIENT, async () => {
    const { code, out } = await fitWith('parts: [ { id: \n');
    expect(code).toBe(0);
    expect(out).toMatch(/the catalogs have none/);
  });

  it('takes a part for what it was written as where anchors and aliases share it', PATIENT, async () => {
    const shared = `format: 1\nx-case: &case { placement: in-tank, rated-voltage: 13.5 V, current: 9 A, relief-pressure: 104 psi }\nparts:\n  - { id: p-1, cost: 90, pump: { <<: *case, flow-at: [[40 psi, 240 L/h], [75 psi, 170 L/h]] } }\n`;
    expect((await fitWith(shared)).out).toMatch(/^Fuel pump.*: of 1, these do it in every stage/);
  });
});
