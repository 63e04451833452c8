import { chmodSync, mkdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { applyPatch } from 'diff';
import { describe, expect, it } from 'vitest';
import { delivered, folderWith, program } from './program.ts';

const CLEAN = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
const POINTS = CLEAN.replace('trigger: magnetic-pickup', 'trigger: contact-points');
const WARNED = CLEAN.replace('surge-control: baffle', 'surge-control: none').replace('use: street', 'use: off-road');
const RULES = 'rules: { ignition/contact-points: { severity: hint } }\n';

async function codes(args: readonly string[], cwd: string): Promise<string[]> {
  const { out } = await program(['check', '-f', 'concise', ...args], { cwd });
  return out
    .split('\n')
    .filter(Boolean)
    .map((line) => line.replace(/:\d+:\d+: (\w+) ([\w/-]+):.*/, ' $1 $2'));
}

describe('build-sheet check', () => {
  it('says by its exit code what is at or above the bar', async () => {
    const cwd = folderWith({ 'clean.build.yaml': CLEAN, 'points.build.yaml': POINTS, 'warned.build.yaml': WARNED });
    const code = async (...args: string[]) => (await program(['check', ...args], { cwd })).code;
    expect(await code('clean.build.yaml')).toBe(0);
    expect(await code('points.build.yaml')).toBe(1);
    expect(await code('warned.build.yaml')).toBe(0);
    expect(await code('warned.build.yaml', '--fail-on', 'warning')).toBe(1);
    expect(await code('--fail-on=hint', 'clean.build.yaml')).toBe(0);
    expect(await code()).toBe(1);
  });

  it('takes folders, patterns and files, each file once', async () => {
    const cwd = folderWith({
      'one.build.yaml': POINTS,
      'a/two.build.yml': POINTS,
      'a/notes.yaml': POINTS,
      'a/node_modules/three.build.yaml': POINTS,
      '.hidden/four.build.yaml': POINTS,
    });
    const one = 'one.build.yaml error ignition/contact-points';
    const two = 'a/two.build.yml error ignition/contact-points';
    expect(await codes([], cwd)).toEqual([two, one]);
    expect(await codes(['one.build.yaml', '.', './a'], cwd)).toEqual([one, two]);
    expect(await codes(['a/*.build.yml', 'a/two.build.yml'], cwd)).toEqual([two]);
    expect(await codes(['a/notes.yaml'], cwd)).toEqual(['a/notes.yaml error ignition/contact-points']);
    expect(await codes(['.hidden'], cwd)).toEqual(['.hidden/four.build.yaml error ignition/contact-points']);
  });

  it('takes the name of a file as it is where a file has it, whatever it means as a pattern', async () => {
    const cwd = folderWith({ '[a] {1}.build.yaml': POINTS, 'a.build.yaml': CLEAN });
    expect(await codes(['[a] {1}.build.yaml'], cwd)).toEqual(['[a] {1}.build.yaml error ignition/contact-points']);
  });

  it('reads the standard input, under a name', async () => {
    const cwd = folderWith({ 'shop/build-sheet.config.yaml': RULES });
    const named = (name: string) =>
      program(['check', '-f', 'concise', '--stdin-name', name, '-'], { cwd, input: POINTS });
    expect((await named('other.build.yaml')).out).toMatch(/^other\.build\.yaml:\d+:\d+: error/);
    expect((await named('shop/new.build.yaml')).out).toMatch(/^shop\/new\.build\.yaml:\d+:\d+: hint/);
  });

  it('holds to the house rules of the folders above, from the top of the work tree', async () => {
    const cwd = folderWith({
      'build-sheet.config.yaml': RULES,
      'shop/one.build.yaml': POINTS,
      'shop/repository/.git/HEAD': '',
      'shop/repository/deep/two.build.yaml': POINTS,
    });
    expect(await codes(['shop/one.build.yaml'], cwd)).toEqual(['shop/one.build.yaml hint ignition/contact-points']);
    const inside = join(cwd, 'shop/repository/deep');
    expect(await codes([], inside)).toEqual(['two.build.yaml error ignition/contact-points']);
    writeFileSync(join(cwd, 'shop/repository/build-sheet.config.yaml'), RULES);
    expect(await codes([], inside)).toEqual(['two.build.yaml hint ignition/contact-points']);
  });

  it('tells once which house rules do not hold, and ends with 2', async () => {
    const cwd = folderWith({
      'build-sheet.config.yaml': 'rules: { ignition/contact-pionts: { severity: hint } }\n',
      'one.build.yaml': POINTS,
      'two.build.yaml': POINTS,
    });
    const { code, complaints, out } = await program(['check', '-f', 'concise'], { cwd });
    expect(code).toBe(2);
    expect(complaints.trimEnd().split('\n')).toEqual([
      'build-sheet: build-sheet.config.yaml: these house rules do not hold, or not all of them: There is no rule "ignition/contact-pionts".',
    ]);
    expect(out).toContain('build-sheet.config.yaml:1:10: error house/unknown-rule');
    expect(out).not.toContain('house/unreadable');
  });

  it.each<[string, string[], RegExp]>([
    ['an option that is not there', ['--formt', 'json'], /there is no option --formt; did you mean --format\?/],
    ['a short option that is not there', ['-x'], /there is no option -x/],
    ['a format that is not there', ['--format', 'xml'], /--format takes one of excerpt, .*, not "xml"/],
    ['an option without its value', ['--format'], /--format needs one of excerpt/],
    ['a value where none goes', ['--fix=all'], /--fix takes no value/],
    ['a path that is not there', ['nowhere'], /there is no file or folder nowhere\./],
    ['a pattern that matches nothing', ['*.build.toml'], /nothing matches \*\.build\.toml\./],
    ['a folder without sheets', ['empty'], /there is no build sheet in empty: none is named \*\.build\.yaml/],
    ['the standard input beside files', ['-', 'one.build.yaml'], /- stands alone/],
    ['the standard input to be written', ['--fix', '-'], /--fix needs files to write/],
  ])('tells %s in one line, and ends with 2', async (_, args, message) => {
    const cwd = folderWith({ 'one.build.yaml': CLEAN });
    mkdirSync(join(cwd, 'empty'));
    const { code, complaints } = await program(['check', ...args], { cwd });
    expect(code).toBe(2);
    expect(complaints).toMatch(message);
    expect(complaints).toMatch(/^build-sheet: [^\n]+\n$/);
  });

  it.each<[string, (file: string) => void, RegExp]>([
    ['huge', (file) => writeFileSync(file, 'x'.repeat(4_000_001)), /larger than 4000 kB/],
    ['no text', (file) => writeFileSync(file, Buffer.from([0xff, 0xfe, 0x66, 0x00])), /it is not UTF-8 text/],
    ['a link that leads nowhere', (file) => symlinkSync('nowhere', file), /there is no file or folder/],
    ['a link to a folder', (file) => symlinkSync('.', file), /there is no build sheet in|regular/],
  ])('tells of a file that is %s, checks the rest, and ends with 2', async (_, make, message) => {
    const cwd = folderWith({ 'points.build.yaml': POINTS });
    mkdirSync(join(cwd, 'odd'));
    make(join(cwd, 'odd', 'x.build.yaml'));
    const { code, complaints, out } = await program(
      ['check', '-f', 'concise', 'odd/x.build.yaml', 'points.build.yaml'],
      { cwd },
    );
    expect(code).toBe(2);
    expect(complaints).toMatch(message);
    expect(complaints.trimEnd().split('\n')).toHaveLength(1);
    expect(out).toContain('ignition/contact-points');
  });

  it('follows no link to a folder in a search', async () => {
    const cwd = folderWith({ 'one.build.yaml': POINTS });
    symlinkSync('..', join(cwd, 'up'));
    symlinkSync('one.build.yaml', join(cwd, 'same.build.yaml'));
    expect((await codes([], cwd)).filter((line) => line.startsWith('one'))).toHaveLength(1);
  });
});

describe('build-sheet check --fix', () => {
  const SLIPS = readFileSync('samples/night-shift.build.yaml', 'utf8');

  it('mends what needs no choice, as --diff has shown it before', async () => {
    const cwd = folderWith({ 'slips.build.yaml': SLIPS, 'clean.build.yaml': CLEAN });
    const file = join(cwd, 'slips.build.yaml');
    chmodSync(file, 0o640);
    const shown = await program(['check', '--diff'], { cwd });
    expect(shown.code).toBe(1);
    expect(shown.out).toMatch(/^--- a\/slips\.build\.yaml\n\+\+\+ b\/slips\.build\.yaml\n@@/);
    expect(readFileSync(file, 'utf8')).toBe(SLIPS);
    const fixed = await program(['check', '--fix', '-f', 'concise'], { cwd });
    expect(fixed.complaints).toContain('mended 1 file.');
    const after = readFileSync(file, 'utf8');
    expect(after).not.toBe(SLIPS);
    expect(after).toBe(applyPatch(SLIPS, shown.out));
    expect(statSync(file).mode & 0o777).toBe(0o640);
    expect(readFileSync(join(cwd, 'clean.build.yaml'), 'utf8')).toBe(CLEAN);
    expect(await program(['check', '--diff'], { cwd })).toMatchObject({ code: 0, out: '' });
  });

  it('writes through a link and keeps line ends', async () => {
    const cwd = folderWith({ 'real.build.yaml': SLIPS.replaceAll('\n', '\r\n') });
    symlinkSync('real.build.yaml', join(cwd, 'link.build.yaml'));
    await program(['check', '--fix', 'link.build.yaml'], { cwd });
    const after = readFileSync(join(cwd, 'real.build.yaml'), 'utf8');
    expect(after).not.toMatch(/[^\r]\n/);
    expect(readFileSync(join(cwd, 'link.build.yaml'), 'utf8')).toBe(after);
    expect(statSync(join(cwd, 'real.build.yaml')).isFile()).toBe(true);
  });
});

describe('the program as it is delivered', () => {
  it('checks, helps, and says which version it is', () => {
    const cwd = folderWith({ 'points.build.yaml': POINTS });
    const checked = delivered(['check', '--format=concise'], cwd);
    expect(checked).toMatchObject({ status: 1, stderr: '' });
    expect(checked.stdout).toMatch(/^points\.build\.yaml:\d+:\d+: error ignition\/contact-points: [^\n]+\n$/);
    expect(delivered(['check', '-f', 'concise', '-'], cwd, POINTS).stdout).toContain('stdin.build.yaml');
    expect(delivered(['--version'], cwd)).toMatchObject({
      status: 0,
      stdout: expect.stringMatching(/^build-sheet \d/),
    });
    expect(delivered(['check', '-f', 'sarif', '.'], cwd).status).toBe(1);
  });

  it('ends quietly when its reader has seen enough', async () => {
    const cwd = folderWith(
      Object.fromEntries(Array.from({ length: 200 }, (_, index) => [`${index}.build.yaml`, POINTS])),
    );
    const { spawnSync } = await import('node:child_process');
    const { PROGRAM } = await import('./program.ts');
    const { stderr, stdout } = spawnSync(
      'sh',
      ['-c', `"${process.execPath}" "${PROGRAM}" check -f json | head -c 20`],
      { cwd, encoding: 'utf8' },
    );
    expect(stdout).toHaveLength(20);
    expect(stderr).toBe('');
  });
});

describe('help', () => {
  it('tells of every verb, with an example that can be read', async () => {
    const { out } = await program([]);
    const verbs = [...out.matchAll(/^ {2}([a-z-]+) /gm)].map(([, verb]) => verb as string);
    expect(verbs).toContain('check');
    for (const verb of verbs) {
      const { code, out: help } = await program([verb, '--help']);
      expect(code).toBe(0);
      expect(help).toMatch(new RegExp(`^Usage: build-sheet ${verb}`));
      expect(help).toContain(`\n  build-sheet ${verb}`);
    }
  });

  it('leads a misspelled verb to the right one', async () => {
    expect(await program(['chck'])).toMatchObject({
      code: 2,
      complaints: 'build-sheet: there is no verb "chck"; did you mean check?\n',
    });
  });
});
