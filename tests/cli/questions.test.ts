import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CACHE, folderWith, mustBeNew, PROGRAM, program } from './program.ts';

const SHORT = `format: 1
title: Two years
engine: { cylinders: 8, displacement: 6.05 L }
fuel: { grade: gasoline-e10 }
stages:
  - { name: now, power: 330 hp }
  - { name: blower, power: 450 hp, induction: roots }
`;

describe('build-sheet questions', () => {
  it('lists what to ask, and what waits for it', async () => {
    const { code, out } = await program(['questions', '-n', '12', '-'], { input: SHORT });
    expect(code).toBe(0);
    expect(out.match(/^- /gm)).toHaveLength(12);
    expect(out).toMatch(
      /^- At what engine speed does it make its power\? engine\.peak-power-speed \(\d+ checks and \d+ figures wait for it/m,
    );
  });

  it('writes a letter without a word of the format', async () => {
    const { out } = await program(['questions', '--format', 'letter', '-'], { input: SHORT });
    expect(out).toMatch(/^About Two years: please tell us/);
    expect(out).toContain('- Stage "blower": How much boost is run in this stage, at the most? (such as 5 psi)');
    expect(out).not.toMatch(/[a-z]\.[a-z]|\bchecks?\b(?! valve)|\[\d\]/);
  });

  it('gives JSON for programs', async () => {
    const { out } = await program(['questions', '--format', 'json', '-n', '3', '-'], { input: SHORT });
    const { version, files } = JSON.parse(out);
    expect(version).toBe(1);
    expect(files).toHaveLength(1);
    expect(files[0].questions[0]).toMatchObject({ field: 'stages.boost', unit: 'psi', choices: [] });
  });

  it.each([['0'], ['ten'], ['-1']])('refuses %s as a number of questions', async (most) => {
    expect(await program(['questions', `--most=${most}`, '-'], { input: SHORT })).toMatchObject({ code: 2 });
  });
});

/** What is answered to the questions that show a text, each once; to all others that it is not known; then stop. */
type Replies = [shown: string, typed: string][];

describe('build-sheet ask', () => {
  const talk = async (replies: Replies, text?: string) => {
    const cwd = folderWith(text === undefined ? {} : { 'new.build.yaml': text });
    const left = [...replies];
    const answer = (shown: string) => {
      const at = left.findIndex(([part]) => shown.includes(part));
      return at >= 0 ? left.splice(at, 1)[0]?.[1] : left.length > 0 ? '' : 'stop';
    };
    const ran = await program(['ask', 'new.build.yaml'], { cwd, answer });
    const file = join(cwd, 'new.build.yaml');
    expect(left).toEqual([]);
    return { ...ran, text: existsSync(file) ? readFileSync(file, 'utf8') : undefined };
  };

  it('begins a sheet that is not there yet', async () => {
    const { code, text, out } = await talk([['stages[0].power', '330']]);
    expect(code).toBe(0);
    expect(text).toMatch(/^format: \d\nstages:\n {2}- \{ power: 330 hp \}\n$/);
    expect(out).toContain('such as 245 hp');
    expect(out).toContain('(hp) > ');
    expect(out).toContain('1 answer written.');
  });

  it('takes choices by number, by name and by another name of the trade', async () => {
    const { text } = await talk(
      [
        ['stages[0].induction', '1'],
        ['ignition.trigger', 'points'],
        ['vehicle.use', 'street'],
      ],
      SHORT,
    );
    expect(text).toContain('power: 330 hp, induction: natural }\n');
    expect(text).toContain('  trigger: contact-points\n');
    expect(text).toContain('  use: street\n');
  });

  it('tells what waits for an answer, goes back, and on again', async () => {
    const replies: Replies = [
      ['boost', '?'],
      ['whether this is so: ', '5'],
      ['', 'back'],
      ['now: 5 psi', '7'],
    ];
    const { text } = await talk(replies, SHORT);
    expect(text).toContain('boost: 7 psi');
  });

  it('says why an answer cannot be and asks again', async () => {
    const { text } = await talk(
      [
        ['peak-power-speed', 'fast'],
        ['is not a quantity', '5000'],
      ],
      SHORT,
    );
    expect(text).toContain('peak-power-speed: 5000 rpm');
  });

  it('stops where the answers end, without touching the sheet', async () => {
    const cwd = folderWith({ 'new.build.yaml': SHORT });
    expect(await program(['ask', 'new.build.yaml'], { cwd })).toMatchObject({ code: 0 });
    expect(readFileSync(join(cwd, 'new.build.yaml'), 'utf8')).toBe(SHORT);
  });

  it('wants one sheet, and one that can be read', async () => {
    expect(await program(['ask'])).toMatchObject({ code: 2, complaints: 'build-sheet: ask takes one sheet.\n' });
    expect(await program(['ask', 'samples'])).toMatchObject({
      code: 2,
      complaints: expect.stringContaining('regular file'),
    });
  });

  it('works in a terminal, with the Tab key, and ends by Ctrl-C with what was answered written', {
    timeout: 60_000,
  }, () => {
    mustBeNew();
    const cwd = folderWith({ 'one.build.yaml': SHORT });
    const env = { ...process.env, XDG_CACHE_HOME: CACHE, TERM: 'xterm', NO_COLOR: '1' };
    const talk = {
      replies: [
        ['engine.peak-power-speed', '5000\r'],
        ['stages[1].boost', '6 psi\r'],
        ['stages[0].induction', 'nat\t\r'],
      ],
      otherwise: '\r',
      last: '\u0003',
    };
    const args = [resolve('tests/cli/talk.py'), process.execPath, PROGRAM, 'ask', 'one.build.yaml'];
    const ran = spawnSync('python3', args, { cwd, env, input: JSON.stringify(talk), encoding: 'utf8' });
    expect(ran.stderr).toBe('');
    expect(ran.stdout).toContain('3 answers written.');
    expect(ran.status).toBe(0);
    const text = readFileSync(join(cwd, 'one.build.yaml'), 'utf8');
    expect(text).toContain('peak-power-speed: 5000 rpm');
    expect(text).toContain('induction: roots, boost: 6 psi }');
    expect(text).toContain('power: 330 hp, induction: natural }');
  });

  it('takes answers from a file, a line for each question', () => {
    mustBeNew();
    const cwd = folderWith({ 'one.build.yaml': SHORT, 'answers.txt': '\n\n' });
    const env = { ...process.env, XDG_CACHE_HOME: CACHE };
    const ran = spawnSync(process.execPath, [PROGRAM, 'ask', 'one.build.yaml'], {
      cwd,
      env,
      input: '\n\n',
      encoding: 'utf8',
    });
    expect(ran).toMatchObject({ status: 0, stderr: '' });
    expect(ran.stdout).toContain('0 answers written.');
    expect(readFileSync(join(cwd, 'one.build.yaml'), 'utf8').match(/:$|: \}/gm)?.length).toBeGreaterThanOrEqual(2);
  });
});
