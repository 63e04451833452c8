import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, program } from './program.ts';

const UNTIDY = 'format:   1\nstages:\n- {name: now,power: 245 hp}   # said\n';
const TIDY = 'format: 1\nstages:\n  - { name: now, power: 245 hp }   # said\n';
const files = {
  'one.build.yaml': UNTIDY,
  'two.build.yaml': TIDY,
  'build-sheet.config.yaml': 'units:  si\n',
  'broken.build.yaml': 'a: {b:   1\n',
};

describe('build-sheet format', () => {
  it('writes what is not in order, names it, and leaves a broken text alone', async () => {
    const cwd = folderWith(files);
    const { code, out, complaints } = await program(['format'], { cwd });
    expect(code).toBe(2);
    expect(out).toBe('build-sheet.config.yaml\none.build.yaml\n');
    expect(complaints).toBe('build-sheet: broken.build.yaml: it cannot be read as YAML, and is left as it is.\n');
    expect(readFileSync(join(cwd, 'one.build.yaml'), 'utf8')).toBe(TIDY);
    expect(readFileSync(join(cwd, 'broken.build.yaml'), 'utf8')).toBe(files['broken.build.yaml']);
    writeFileSync(join(cwd, 'broken.build.yaml'), 'a: 1\n');
    expect(await program(['format'], { cwd })).toEqual({ code: 0, out: '', complaints: '' });
  });

  it('only tells, where it is asked to', async () => {
    const cwd = folderWith({ 'one.build.yaml': UNTIDY, 'two.build.yaml': TIDY });
    expect(await program(['format', '--check'], { cwd })).toEqual({ code: 1, out: 'one.build.yaml\n', complaints: '' });
    expect((await program(['format', '--diff'], { cwd })).out).toContain('+  - { name: now, power: 245 hp }');
    expect(readFileSync(join(cwd, 'one.build.yaml'), 'utf8')).toBe(UNTIDY);
    expect((await program(['format', '--check', 'two.build.yaml'], { cwd })).code).toBe(0);
  });

  it('formats the standard input', async () => {
    expect(await program(['format', '-'], { input: UNTIDY })).toEqual({ code: 0, out: TIDY, complaints: '' });
    expect(await program(['format', '-'], { input: 'a: {b' })).toMatchObject({ code: 2, out: 'a: {b' });
  });
});
