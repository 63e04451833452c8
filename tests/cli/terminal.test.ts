import { spawnSync } from 'node:child_process';
import { chmodSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { CACHE, folderWith, mustBeNew, PROGRAM } from './program.ts';

const CLEAN = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
const POINTS = CLEAN.replace('trigger: magnetic-pickup', 'trigger: contact-points');
const LINE = POINTS.split('\n').find((line) => line.includes('contact-points')) as string;

/** Gives a program a terminal that does not say how wide it is. */
const IN_TERMINAL = 'import os, pty, sys; sys.exit(os.waitstatus_to_exitcode(pty.spawn(sys.argv[1:])))';

/** The environment without what says how to color. */
const { NO_COLOR: _, FORCE_COLOR: __, ...uncolored } = process.env;

function inTerminal(env: Record<string, string>) {
  const cwd = folderWith({ 'points.build.yaml': POINTS });
  const args = ['-c', IN_TERMINAL, process.execPath, PROGRAM, 'check', 'points.build.yaml'];
  const whole = { ...uncolored, XDG_CACHE_HOME: CACHE, ...env };
  const { status, stdout } = spawnSync('python3', args, { cwd, env: whole, input: '', encoding: 'utf8' });
  return { status, shown: stdout };
}

beforeAll(mustBeNew);

describe('the program in a terminal', () => {
  it.each([
    ['in colors', { TERM: 'xterm' }, true],
    ['without them where NO_COLOR says so', { TERM: 'xterm', NO_COLOR: '1' }, false],
    ['without them where the terminal has none', { TERM: 'dumb' }, false],
    ['without them where FORCE_COLOR says no', { TERM: 'dumb', FORCE_COLOR: '0' }, false],
    ['in colors where they are forced', { TERM: 'dumb', FORCE_COLOR: '1' }, true],
  ])('shows findings %s, and the line they are about', (_, env, hasColor) => {
    const { status, shown } = inTerminal(env);
    expect(status).toBe(1);
    expect(shown).toContain(LINE.trim().slice(0, 20));
    expect(shown.includes('\u001b[3')).toBe(hasColor);
  });
});

describe('a file or folder that someone may not read', () => {
  // Whoever runs as root may read everything: then the program runs as the one who is nobody.
  const isRoot = process.getuid?.() === 0;
  const nobody = isRoot ? { uid: 65534, gid: 65534 } : {};

  it.runIf(process.platform !== 'win32')(
    'is told in one line each, the rest is checked, and the exit code is 2',
    () => {
      const cwd = folderWith({ 'points.build.yaml': POINTS, 'shut.build.yaml': CLEAN, 'locked/in.build.yaml': CLEAN });
      chmodSync(cwd, 0o755);
      for (const [name, mode] of [
        ['shut.build.yaml', 0],
        ['locked', 0],
        ['points.build.yaml', 0o644],
      ] as const)
        chmodSync(join(cwd, name), mode);
      // A copy that everyone may read, wherever the project stands.
      const program = join(cwd, 'build-sheet.cjs');
      for (const [from, to] of [
        [PROGRAM, program],
        [PROGRAM.replace('.cjs', '-bundle.cjs'), join(cwd, 'build-sheet-bundle.cjs')],
      ] as const)
        writeFileSync(to, readFileSync(from), { mode: 0o644 });
      const env = { ...uncolored, XDG_CACHE_HOME: join(cwd, 'cache') };
      const args = [program, 'check', '-f', 'concise'];
      const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd, env, encoding: 'utf8', ...nobody });
      chmodSync(join(cwd, 'locked'), 0o755);
      expect(stderr.trimEnd().split('\n').toSorted()).toEqual([
        expect.stringMatching(/^build-sheet: shut\.build\.yaml: it cannot be read \(EACCES\)\.$/),
        expect.stringMatching(/^build-sheet: the folder .*locked\/? cannot be read \(EACCES\)\.$/),
      ]);
      expect(stdout).toContain('ignition/contact-points');
      expect(status).toBe(2);
    },
  );
});
