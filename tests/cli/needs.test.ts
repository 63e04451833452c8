import { describe, expect, it } from 'vitest';
import { folderWith, program } from './program.ts';

const PHONE = `format: 1
engine: { cylinders: 6, displacement: 4.1 L }
fuel: { grade: gasoline-e10 }
stages:
  - { name: now, power: 180 hp, induction: natural }
`;

describe('build-sheet needs', () => {
  it('tells what a short sheet needs, and what that stands on', async () => {
    const cwd = folderWith({ 'phone.build.yaml': PHONE });
    const { code, out } = await program(['needs', 'phone.build.yaml'], { cwd });
    expect(code).toBe(0);
    expect(out).toMatch(/- static flow of each of 4 at 43\.5 psi: [\d.]+ lb\/h to [\d.]+ lb\/h/);
    expect(out).toMatch(/Stands on \d+ assumed values/);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(110);
  });

  it('writes Markdown and JSON, in the units of the house', async () => {
    const cwd = folderWith({ 'phone.build.yaml': PHONE, 'build-sheet.config.yaml': 'units: si\n' });
    const { out } = await program(['needs', '-f', 'markdown', 'phone.build.yaml'], { cwd });
    expect(out).toContain('**Injectors**');
    expect(out).toMatch(/static flow of each of 4 at 43\.5 psi: \d+ .*cm\^?3?\/min|kg\/h/);
    const data = JSON.parse((await program(['needs', '-f', 'json', 'phone.build.yaml'], { cwd })).out);
    const flow = data.needs.find(({ field }: { field: string }) => field.endsWith('static-flow'));
    expect(flow.low.value).toBeLessThan(flow.high.value);
    expect(flow.low.broken[0].rule).toBe('throttle-body/duty');
    expect(data.assumed.length).toBeGreaterThan(10);
  });

  it('reads the standard input, broken or not', async () => {
    expect((await program(['needs', '-'], { input: PHONE })).out).toContain('Injectors');
    expect((await program(['needs', '-'], { input: 'stages: [' })).code).toBe(0);
  });

  it('wants one sheet', async () => {
    const cwd = folderWith({ 'a/one.build.yaml': PHONE, 'a/two.build.yaml': PHONE });
    expect(await program(['needs', 'a'], { cwd })).toMatchObject({ code: 2, out: '' });
    expect(await program(['needs'], { cwd })).toMatchObject({ code: 2 });
    expect((await program(['needs', 'gone.build.yaml'], { cwd })).complaints).toContain('gone.build.yaml');
  });
});
