import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, program } from './program.ts';

const samples = resolve('samples');
const wagon = ['what-if', join(samples, 'quarry-wagon.build.yaml')];
const shelf = ['what-if', join(samples, 'counter/shelf-wagon.build.yaml')];

/** The first number after a text. */
const numberAfter = (text: string, lead: string) =>
  Number(/[\d.]+/.exec(text.slice(text.indexOf(lead) + lead.length))?.[0]);

describe('build-sheet what-if', () => {
  it('tells what another value does, as comparing with the changed sheet does, and leaves the sheet alone', async () => {
    const before = readFileSync(wagon[1] ?? '', 'utf8');
    const { code, out } = await program([...wagon, '--set', 'stages.camshaft.power=420 hp']);
    expect(code).toBe(0);
    expect(out).toMatch(/^What if stages\.camshaft\.power were 420 hp\?\n/);
    expect(readFileSync(wagon[1] ?? '', 'utf8')).toBe(before);
    const changed = before.replace(/(name: camshaft[^}]*?power: )290 hp/s, '$1420 hp');
    expect(changed).not.toBe(before);
    const cwd = folderWith({ 'now.build.yaml': before, 'then.build.yaml': changed });
    const compared = await program(['compare', 'now.build.yaml', 'then.build.yaml'], { cwd });
    expect(out.slice(out.indexOf('\n\n'))).toBe(compared.out.slice(compared.out.indexOf('\n\n')));
  });

  it('tries all that is set together', async () => {
    const set = ['-s', 'stages[1].power=310 hp', '-s', 'throttle-body.injectors.static-flow=70 lb/h', '-f', 'json'];
    const { out } = await program([...wagon, ...set]);
    const { variants } = JSON.parse(out);
    expect(variants).toHaveLength(1);
    const fields = variants[0].causes
      .flatMap(({ changes }: { changes: { field: string }[] }) => changes)
      .map(({ field }: { field: string }) => field);
    expect(new Set(fields)).toEqual(new Set(['stages[1].power', 'throttle-body.injectors.static-flow']));
  });

  it('sets several values of a field beside one another', async () => {
    const set = ['60 lb/h', '90 lb/h'].flatMap((flow) => ['-s', `throttle-body.injectors.static-flow=${flow}`]);
    const { out } = await program([...wagon, ...set], { columns: 400 });
    expect(out).toMatch(/1\. What if .* were 60 lb\/h\?[\s\S]*2\. What if .* were 90 lb\/h\?/);
    const line = out.split('\n').find((one) => one.startsWith('- Duty cycle at peak-power speed, first summer')) ?? '';
    expect(line).toMatch(/now .*; 1: .*; 2: /);
    expect(numberAfter(line, '1: ')).toBeGreaterThan(numberAfter(line, 'now '));
    expect(numberAfter(line, '2: ')).toBeLessThan(numberAfter(line, 'now '));
  });

  it('puts another part of the catalogs in', async () => {
    const { out, code } = await program([...shelf, '-s', 'fuel-system.pump=tank-pump-322', '-f', 'json']);
    const complaint = JSON.parse(out).errors?.[0].message;
    expect([code, complaint]).toEqual([0, undefined]);
    expect(JSON.parse(out).variants[0].figures.length).toBeGreaterThan(0);
  });

  it('takes a field out, and tells what cannot be checked any more', async () => {
    const { out } = await program([...wagon, '-s', 'fuel-system.pump.current=']);
    expect(out).toContain('What if fuel-system.pump.current were not given?');
    expect(out).toContain('Cannot be checked any more');
  });

  it.each([
    [['engine.displacment=5 L'], 'did you mean "engine.displacement"?'],
    [['engine.displacement=5 apples'], 'engine.displacement = 5 apples does not hold: '],
    [['engine.displacement'], '--set takes FIELD=VALUE'],
    [['stages.turbo.power=400 hp'], 'names no stage'],
    [['stages[7].power=400 hp'], 'no stage [7]'],
    [['engine.cylinders=[1'], 'cannot be written as a value'],
    [
      ['engine.cylinders=6', 'engine.cylinders=8', 'engine.idle=1', 'engine.idle=2', 'engine.idle=3'],
      'give one, or as many',
    ],
    [[], 'needs at least one --set'],
  ])('refuses %j', async (set, complaint) => {
    const { code, complaints } = await program([...wagon, ...set.flatMap((one) => ['--set', one])]);
    expect(code).toBe(2);
    expect(complaints).toContain(complaint);
  });
});
