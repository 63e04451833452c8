import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { formatNames } from '../../server/src/cli/formats/formats.ts';
import { allVerbs } from '../../server/src/cli/run.ts';
import { folderWith, program } from './program.ts';

const shells = ['bash', 'zsh', 'fish'] as const;
type Shell = (typeof shells)[number];

/** Shells that are here; those that are not have no more than their script read over. CI installs all of them. */
const here = shells.filter((shell) => ['/bin', '/usr/bin'].some((folder) => existsSync(join(folder, shell))));

const script = async (shell: Shell) => (await program(['completion', shell])).out;

/** Runs a shell, which must have nothing to complain about, for what it prints. */
async function ran(command: string, args: readonly string[], cwd: string): Promise<string> {
  const { stdout, stderr } = await promisify(execFile)(command, args, { cwd });
  expect(stderr).toBe('');
  return stdout;
}

/** What each shell itself offers for command lines that are begun, with the script sourced. */
const offered: Record<Shell, (typed: readonly string[], cwd: string) => Promise<string[][]>> = {
  async bash(typed, cwd) {
    const asked = typed.flatMap((line) => {
      const words = line.split(' ').map((word) => `'${word}'`);
      const offers = `printf '%s\\n' "\${COMPREPLY[@]}" END`;
      return [`COMP_WORDS=(${words.join(' ')})`, `COMP_CWORD=${words.length - 1}`, '_build_sheet', offers];
    });
    return apart(await ran('bash', ['--norc', '-c', [await script('bash'), ...asked].join('\n')], cwd));
  },
  async zsh(typed, cwd) {
    const file = join(folderWith({ 'completion.zsh': await script('zsh') }), 'completion.zsh');
    return apart(await ran('zsh', ['-f', resolve('tests/cli/zsh-offers.zsh'), file, ...typed], cwd));
  },
  async fish(typed, cwd) {
    const file = join(folderWith({ 'completion.fish': await script('fish') }), 'completion.fish');
    const asked = typed.map((line) => `complete -C '${line}'; echo END`);
    return apart(await ran('fish', ['-N', '-c', [`source '${file}'`, ...asked].join('\n')], cwd));
  },
};

/** The offers for each line, in order and without what is said of them. */
function apart(printed: string): string[][] {
  const lines = printed.split(/^END\n/m).slice(0, -1);
  return lines.map((offers) =>
    offers
      .split('\n')
      .filter(Boolean)
      .map((offer) => offer.replace(/\t.*/, ''))
      .toSorted(),
  );
}

const PATIENCE = { timeout: 120_000 };

describe.each(here)('build-sheet completion %s', (shell) => {
  it('has the shell itself complete verbs, options, choices, words and files', PATIENCE, async () => {
    const typed = ['com', '', 'check --f', 'check --format s', 'check -f ', 'check one', 'completion '];
    const cwd = folderWith({ 'one.build.yaml': '' });
    const [two, verbs, options, choice, choices, file, words] = await offered[shell](
      typed.map((line) => `build-sheet ${line}`),
      cwd,
    );
    expect(two).toEqual(['compare', 'completion']);
    expect(verbs).toEqual(expect.arrayContaining(Object.keys(await allVerbs())));
    expect(options).toEqual(['--fail-on', '--fix', '--format']);
    expect(choice).toEqual(['sarif']);
    expect(choices).toEqual([...formatNames].toSorted());
    expect(file).toEqual(['one.build.yaml']);
    expect(words).toEqual(['bash', 'fish', 'zsh']);
  });
});

describe('build-sheet completion', () => {
  it.each(['zsh', 'fish'] as const)('tells what options are for as the help does, in %s', async (shell) => {
    expect(await script(shell)).toContain('the bar: the exit code is 1');
  });

  it.each(shells)('names every verb, option and choice for %s', async (shell) => {
    const out = await script(shell);
    for (const [verb, { options }] of Object.entries(await allVerbs())) {
      expect(out).toContain(verb);
      for (const [name, { choices = [] }] of Object.entries(options)) {
        expect(out).toContain(shell === 'fish' ? `-l ${name} ` : `--${name}`);
        expect(out).toContain(choices.join(' '));
      }
    }
  });

  it.runIf(here.includes('zsh'))('works in zsh from a folder of fpath, from the first time on', PATIENCE, async () => {
    const folder = folderWith({ '_build-sheet': await script('zsh') });
    const load = join(folderWith({ 'load.zsh': `fpath=('${folder}' $fpath)\ncompinit -D -u\n` }), 'load.zsh');
    const offers = apart(
      await ran('zsh', ['-f', resolve('tests/cli/zsh-offers.zsh'), load, 'build-sheet com'], folder),
    );
    expect(offers).toEqual([['compare', 'completion']]);
  });

  it('tells which shells there are', async () => {
    expect(await program(['completion', 'other'])).toMatchObject({
      code: 2,
      complaints: 'build-sheet: completion takes one shell: bash, zsh, fish.\n',
    });
  });
});
