import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { CACHE, delivered, folderWith, mustBeNew, PROGRAM, program } from './program.ts';
import { git, repository } from './repository.ts';

const WAGON = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
const POINTS = WAGON.replace('trigger: magnetic-pickup', 'trigger: contact-points');
const ENV = {
  ...process.env,
  XDG_CACHE_HOME: CACHE,
  GIT_PAGER: 'cat',
  GIT_AUTHOR_NAME: 'a',
  GIT_AUTHOR_EMAIL: 'a@example.com',
  GIT_COMMITTER_NAME: 'a',
  GIT_COMMITTER_EMAIL: 'a@example.com',
};

/** Runs git as a user does: whatever is set up in the repository runs. */
function real(cwd: string, ...args: string[]) {
  const { status, stdout, stderr } = spawnSync('git', args, { cwd, encoding: 'utf8', env: ENV });
  return { status, out: stdout, err: stderr };
}

async function setUp(cwd: string, ...args: string[]): Promise<string> {
  const { code, out, complaints } = await program(['git-setup', ...args], { cwd });
  expect({ code, complaints }).toEqual({ code: 0, complaints: '' });
  return out;
}

/** A repository in which `ours` is on the branch that is checked out and `theirs` on another. */
async function diverged(ours: string, theirs: string, file = 'one.build.yaml'): Promise<string> {
  const cwd = repository({ [file]: WAGON });
  await setUp(cwd, '--clone');
  git(cwd, 'checkout', '-q', '-b', 'theirs');
  writeFileSync(join(cwd, file), theirs);
  git(cwd, 'commit', '-q', '-a', '-m', 'theirs');
  git(cwd, 'checkout', '-q', 'main');
  writeFileSync(join(cwd, file), ours);
  git(cwd, 'commit', '-q', '-a', '-m', 'ours');
  return cwd;
}

beforeAll(mustBeNew);

describe('git-setup', () => {
  it('shows findings and figures beside the text, and all of it goes again', async () => {
    const cwd = repository({ 'one.build.yaml': WAGON, '.gitattributes': '*.png binary\n' });
    const config = readFileSync(join(cwd, '.git/config'), 'utf8');
    expect(await setUp(cwd)).toContain('.gitattributes');
    await setUp(cwd);
    expect(readFileSync(join(cwd, '.gitattributes'), 'utf8').match(/build-sheet: begin/g)).toHaveLength(1);
    writeFileSync(join(cwd, 'one.build.yaml'), POINTS.replace('245 +/- 15 hp', '260 hp'));
    const { status, out, err } = real(cwd, 'diff', '--', 'one.build.yaml');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('+  trigger: contact-points');
    expect(out).toMatch(/^\+# error ignition\/contact-points ignition\.trigger: /m);
    expect(out).toMatch(/^-# Fuel demand by power, first summer: /m);
    expect(real(cwd, 'diff', '--no-textconv', '--', 'one.build.yaml').out).not.toContain('Fuel demand');
    await setUp(cwd, '--remove');
    expect(readFileSync(join(cwd, '.gitattributes'), 'utf8')).toBe('*.png binary\n');
    expect(readFileSync(join(cwd, '.git/config'), 'utf8')).toBe(config);
    expect(real(cwd, 'diff', '--', 'one.build.yaml').out).not.toContain('Fuel demand');
  });

  it('shows what a change does, of a new sheet, of one that is taken out and of one under another name', async () => {
    const cwd = repository({ 'shop/one.build.yaml': WAGON, 'two.build.yaml': 'format: 1\n' });
    await setUp(cwd, '--diff', 'compare', '--clone');
    expect(existsSync(join(cwd, '.gitattributes'))).toBe(false);
    git(cwd, 'mv', 'shop/one.build.yaml', 'shop/renamed.build.yaml');
    git(cwd, 'rm', '-q', 'two.build.yaml');
    writeFileSync(join(cwd, 'shop/renamed.build.yaml'), POINTS);
    writeFileSync(join(cwd, 'three.build.yaml'), `${POINTS}# mine\n`);
    git(cwd, 'add', '-A');
    const { status, out, err } = real(cwd, 'diff', '--cached', '-M');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('Worse: 1 new error');
    expect(out).toContain('+  trigger: contact-points');
    expect(out).toContain('A sheet that is taken out.');
    expect(out).toContain('+++ b/shop/renamed.build.yaml');
    const broken = repository({ 'one.build.yaml': WAGON });
    await setUp(broken, '--diff', 'compare');
    writeFileSync(join(broken, 'one.build.yaml'), Buffer.from([0xff, 0xfe, 0]));
    expect(real(broken, 'diff')).toMatchObject({ status: 0, err: expect.stringContaining('not UTF-8') });
  });

  it('serves as a difftool', async () => {
    const cwd = repository({ 'one.build.yaml': WAGON });
    await setUp(cwd);
    writeFileSync(join(cwd, 'one.build.yaml'), POINTS);
    const { status, out } = real(cwd, 'difftool', '--no-prompt', '--tool', 'build-sheet');
    expect(status).toBe(0);
    expect(out).toContain('Worse: 1 new error');
  });

  it.each([
    ['outside a repository', () => folderWith({ 'one.build.yaml': WAGON }), /is in no git work tree/],
    [
      'where the attributes are a link',
      () => {
        const cwd = repository({ 'one.build.yaml': WAGON });
        symlinkSync('/etc/hostname', join(cwd, '.gitattributes'));
        return cwd;
      },
      /is not a regular file/,
    ],
  ])('refuses %s, in one line', async (_, make, message) => {
    const { code, complaints } = await program(['git-setup'], { cwd: make() });
    expect(code).toBe(2);
    expect(complaints).toMatch(message);
    expect(complaints.trimEnd().split('\n')).toHaveLength(1);
  });
});

describe('merging', () => {
  it('joins changes of different fields on one line', async () => {
    const cwd = await diverged(
      WAGON.replace('altitude: 900 m', 'altitude: 950 m'),
      WAGON.replace('hottest: 41 degC', 'hottest: 43 degC'),
      "a shop/it's.build.yaml",
    );
    const { status } = real(cwd, 'merge', '-q', 'theirs', '-m', 'merge');
    expect(status).toBe(0);
    expect(readFileSync(join(cwd, "a shop/it's.build.yaml"), 'utf8')).toBe(
      WAGON.replace('altitude: 900 m', 'altitude: 950 m').replace('hottest: 41 degC', 'hottest: 43 degC'),
    );
  });

  it('leaves the conflict where both sides changed one field', async () => {
    const cwd = await diverged(WAGON.replace('900 m', '950 m'), WAGON.replace('900 m', '990 m'));
    const { status, err, out } = real(cwd, 'merge', 'theirs');
    expect(status).toBe(1);
    expect(err + out).toContain('site.altitude');
    expect(readFileSync(join(cwd, 'one.build.yaml'), 'utf8')).toMatch(
      /^<{7} ours\nsite: \{ altitude: 950 m[\s\S]*^>{7} theirs\n/m,
    );
    expect(real(cwd, 'status', '--porcelain').out).toContain('UU one.build.yaml');
    expect(real(cwd, 'diff').status).toBe(0);
  });

  it('leaves a conflict where lines could be joined but one field would stand twice', async () => {
    const cwd = await diverged(
      WAGON.replace('stages:', 'limits: { largest-duty: 80 % }\nstages:'),
      `${WAGON}limits: { largest-duty: 75 % }\n`,
    );
    expect(real(cwd, 'merge', 'theirs').status).toBe(1);
    expect(readFileSync(join(cwd, 'one.build.yaml'), 'utf8')).toMatch(
      /^<{7} ours\n[\s\S]*^={7}\n[\s\S]*^>{7} theirs\n$/m,
    );
  });
});

describe('a team', () => {
  it('has a hook definition that finds sheets, catalogs and house rules, and stops a commit with an error', () => {
    const [hook] = parse(readFileSync('.pre-commit-hooks.yaml', 'utf8')) as [{ entry: string; files: string }];
    const pattern = new RegExp(hook.files);
    for (const file of [
      'a.build.yaml',
      'shop/b.build.yml',
      'shelf.parts.yaml',
      'build-sheet.config.yaml',
      'x/build-sheet.config.yml',
    ])
      expect(pattern.test(file)).toBe(true);
    for (const file of ['build.yaml', 'a.build.yaml.txt', 'my-build-sheet.config.yaml'])
      expect(pattern.test(file)).toBe(false);
    const cwd = repository({ 'one.build.yaml': WAGON });
    const line = hook.entry.replace(/^build-sheet/, `"${process.execPath}" "${PROGRAM}"`);
    mkdirSync(join(cwd, '.git/hooks'), { recursive: true });
    writeFileSync(join(cwd, '.git/hooks/pre-commit'), `#!/bin/sh\n${line} one.build.yaml\n`, { mode: 0o755 });
    writeFileSync(join(cwd, 'one.build.yaml'), POINTS);
    const stopped = real(cwd, 'commit', '-a', '-m', 'points');
    expect(stopped.status).toBe(1);
    expect(stopped.out + stopped.err).toContain('error ignition/contact-points');
    writeFileSync(join(cwd, 'one.build.yaml'), `${WAGON}# said\n`);
    expect(real(cwd, 'commit', '-a', '-m', 'fine').status).toBe(0);
  });

  it('has a workflow whose lines run', () => {
    const workflow = parse(readFileSync('samples/team/pull-request.yml', 'utf8'));
    const lines: string[] = workflow.jobs.compare.steps.flatMap(({ run = '' }: { run?: string }) => run.split('\n'));
    const ours = lines.filter((line) => line.startsWith('build-sheet '));
    expect(ours).toHaveLength(2);
    const cwd = repository({ 'one.build.yaml': WAGON });
    git(cwd, 'checkout', '-q', '-b', 'change');
    writeFileSync(join(cwd, 'one.build.yaml'), POINTS);
    git(cwd, 'commit', '-q', '-a', '-m', 'points');
    const env = { ...ENV, BASE: 'main', RUNNER_TEMP: cwd };
    const run = (line: string) =>
      spawnSync('sh', ['-c', line.replace(/^build-sheet/, `"${process.execPath}" "${PROGRAM}"`)], {
        cwd,
        env,
        encoding: 'utf8',
      });
    expect(run(ours[0] as string).status).toBe(0);
    expect(readFileSync(join(cwd, 'comparison.md'), 'utf8')).toContain('**Worse: 1 new error.**');
    expect(run(ours[1] as string)).toMatchObject({
      status: 1,
      stdout: expect.stringContaining('::error file=one.build.yaml'),
    });
  });
});

describe('a hostile repository', () => {
  it('runs nothing of its own while two states are compared', async () => {
    const cwd = repository({ 'one.build.yaml': WAGON, '.gitattributes': '*.yaml diff=evil filter=evil merge=evil\n' });
    const evil = join(cwd, 'evil.sh');
    writeFileSync(evil, `#!/bin/sh\ntouch "${join(cwd, 'harmed')}"\ncat\n`, { mode: 0o755 });
    for (const name of [
      'core.fsmonitor',
      'diff.external',
      'diff.evil.textconv',
      'diff.evil.command',
      'core.pager',
      'core.sshCommand',
      'filter.evil.smudge',
      'filter.evil.clean',
      'merge.evil.driver',
      'alias.rev-parse',
    ])
      git(cwd, 'config', name, evil);
    writeFileSync(join(cwd, 'one.build.yaml'), POINTS);
    expect((await program(['compare', 'HEAD'], { cwd })).out).toContain('Worse: 1 new error');
    await setUp(cwd, '--clone');
    await setUp(cwd, '--remove');
    expect(existsSync(join(cwd, 'harmed'))).toBe(false);
    const ours = { 'base.yaml': WAGON, 'ours.yaml': POINTS, 'theirs.yaml': WAGON };
    for (const [name, text] of Object.entries(ours)) writeFileSync(join(cwd, name), text);
    expect((await program(['git-merge', 'base.yaml', 'ours.yaml', 'theirs.yaml', '7', 'x'], { cwd })).code).toBe(0);
    expect(existsSync(join(cwd, 'harmed'))).toBe(false);
  });

  it('is not followed out of a state by names that begin as options do', () => {
    const cwd = repository({ '-x.build.yaml': POINTS });
    expect(delivered(['compare', 'HEAD', 'HEAD'], cwd).stdout).toContain('No difference');
    expect(execFileSync('git', ['status', '--porcelain'], { cwd, encoding: 'utf8' })).toBe('');
  });
});
