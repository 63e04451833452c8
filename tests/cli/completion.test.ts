import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { allVerbs } from '../../server/src/cli/run.ts';
import { folderWith, program } from './program.ts';

/** What bash offers for a command line that is begun. */
function offered(script: string, words: readonly string[], cwd = process.cwd()): string[] {
  const line = words.map((word) => `'${word}'`).join(' ');
  const lines = [
    script,
    `COMP_WORDS=(${line})`,
    `COMP_CWORD=${words.length - 1}`,
    '_build_sheet',
    `printf "%s\\n" "\${COMPREPLY[@]}"`,
  ];
  const { stdout, stderr } = spawnSync('bash', ['--norc', '-c', lines.join('\n')], { cwd, encoding: 'utf8' });
  expect(stderr).toBe('');
  return stdout.split('\n').filter(Boolean);
}

describe('build-sheet completion', () => {
  it('completes verbs, options, choices and files in bash', async () => {
    const { out } = await program(['completion', 'bash']);
    expect(offered(out, ['build-sheet', 'com'])).toEqual(['compare', 'completion']);
    expect(offered(out, ['build-sheet', ''])).toEqual(
      expect.arrayContaining([...Object.keys(await allVerbs()), '--help']),
    );
    expect(offered(out, ['build-sheet', 'check', '--f'])).toEqual(['--format', '--fail-on', '--fix']);
    expect(offered(out, ['build-sheet', 'check', '--format', 's'])).toEqual(['sarif']);
    expect(offered(out, ['build-sheet', 'check', '-f', ''])).toContain('gitlab');
    expect(offered(out, ['build-sheet', 'check', 'one'], folderWith({ 'one.build.yaml': '' }))).toEqual([
      'one.build.yaml',
    ]);
  });

  it.each(['zsh', 'fish'])('names every verb, option and choice for %s', async (shell) => {
    const { out } = await program(['completion', shell]);
    for (const [verb, { options }] of Object.entries(await allVerbs())) {
      expect(out).toContain(verb);
      for (const [name, { choices = [] }] of Object.entries(options)) {
        expect(out).toContain(shell === 'zsh' ? `--${name}` : `-l ${name} `);
        expect(out).toContain(choices.join(' '));
      }
    }
    // The shell itself reads it, on a machine that has it.
    if (existsSync(`/usr/bin/${shell}`))
      expect(spawnSync(shell, ['-n'], { input: out, encoding: 'utf8' }).stderr).toBe('');
  });

  it('tells which shells there are', async () => {
    expect(await program(['completion', 'other'])).toMatchObject({
      code: 2,
      complaints: 'build-sheet: completion takes one shell: bash, zsh, fish.\n',
    });
  });
});
