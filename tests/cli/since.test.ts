import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, program } from './program.ts';
import { git, repository } from './repository.ts';

const CLEAN = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
const POINTS = CLEAN.replace('trigger: magnetic-pickup', 'trigger: contact-points');
async function codes(cwd: string, ref = 'main'): Promise<string[]> {
  const { out, complaints } = await program(['check', '-f', 'concise', '--since', ref], { cwd });
  expect(complaints).toBe('');
  return out
    .split('\n')
    .filter(Boolean)
    .map((line) => line.replace(/:\d+:\d+: (\w+) ([\w/-]+):.*/, ' $1 $2'));
}

describe('build-sheet check --since', () => {
  it('tells only what is new, wherever the old has moved', async () => {
    const cwd = repository({ 'shop/one.build.yaml': POINTS, 'two.build.yaml': CLEAN });
    expect(await codes(cwd)).toEqual([]);
    writeFileSync(join(cwd, 'shop/one.build.yaml'), `# one\n# two\n${POINTS.replace('vent: true', 'vent: false')}`);
    writeFileSync(join(cwd, 'two.build.yaml'), POINTS);
    expect(await codes(cwd)).toEqual([
      'shop/one.build.yaml error fuel-supply/vent-missing',
      'two.build.yaml error ignition/contact-points',
    ]);
    expect(await codes(join(cwd, 'shop'))).toEqual(['one.build.yaml error fuel-supply/vent-missing']);
    expect((await program(['check', '--since', 'main', 'two.build.yaml'], { cwd })).code).toBe(1);
  });

  it('tells everything of a file that was not there, and takes house rules as they were', async () => {
    const cwd = repository({ 'one.build.yaml': POINTS });
    writeFileSync(join(cwd, 'new.build.yaml'), POINTS);
    expect(await codes(cwd)).toEqual(['new.build.yaml error ignition/contact-points']);
    writeFileSync(join(cwd, 'build-sheet.config.yaml'), 'limits: { pump-reserve: 200 % }\n');
    expect(await codes(cwd)).toContainEqual(
      expect.stringMatching(/^one\.build\.yaml \w+ fuel-supply\/pump-flow-short$/),
    );
  });

  it('tells a finding that is no longer accepted', async () => {
    const accepted = `${POINTS}silence: [{ rule: ignition/contact-points, reason: for now }]\n`;
    const cwd = repository({ 'one.build.yaml': accepted });
    writeFileSync(join(cwd, 'one.build.yaml'), POINTS);
    expect(await codes(cwd)).toEqual(['one.build.yaml error ignition/contact-points']);
  });

  it.each([
    ['nowhere', /"nowhere" is no git revision here/],
    ['--output=evil', /is no git revision here/],
    ['main; touch evil', /is no git revision here/],
    ['', /is no git revision here/],
  ])('refuses %j as a state, in one line', async (ref, message) => {
    const cwd = repository({ 'one.build.yaml': CLEAN });
    const { code, complaints } = await program(['check', `--since=${ref}`], { cwd });
    expect(code).toBe(2);
    expect(complaints).toMatch(message);
    expect(complaints.trimEnd().split('\n')).toHaveLength(1);
    expect(existsSync(join(cwd, 'evil'))).toBe(false);
  });

  it('says that a folder is in no work tree', async () => {
    const cwd = folderWith({ 'one.build.yaml': CLEAN });
    expect(await program(['check', '--since', 'main'], { cwd })).toMatchObject({
      code: 2,
      complaints: expect.stringContaining('is in no git work tree'),
    });
  });

  it('runs nothing that a hostile repository has set up', async () => {
    const cwd = repository({ 'one.build.yaml': CLEAN, '.gitattributes': '*.yaml diff=evil filter=evil\n' });
    const evil = join(cwd, 'evil.sh');
    writeFileSync(evil, `#!/bin/sh\ntouch "${join(cwd, 'harmed')}"\ncat\n`, { mode: 0o755 });
    for (const name of [
      'core.fsmonitor',
      'diff.external',
      'diff.evil.textconv',
      'diff.evil.command',
      'core.pager',
      'core.sshCommand',
    ])
      git(cwd, 'config', name, evil);
    for (const name of ['filter.evil.smudge', 'filter.evil.clean']) git(cwd, 'config', name, evil);
    mkdirSync(join(cwd, '.git/hooks'), { recursive: true });
    for (const hook of ['post-index-change', 'post-checkout', 'reference-transaction'])
      writeFileSync(join(cwd, '.git/hooks', hook), `#!/bin/sh\ntouch "${join(cwd, 'harmed')}"\n`, { mode: 0o755 });
    writeFileSync(join(cwd, 'one.build.yaml'), POINTS);
    expect(await codes(cwd)).toEqual(['one.build.yaml error ignition/contact-points']);
    expect(existsSync(join(cwd, 'harmed'))).toBe(false);
  });
});

describe('build-sheet explain', () => {
  it.each([
    ['fuel-supply/hose-pressure', /^A fuel line is not made for/],
    ['sheet/quantity', /\(the text itself\)/],
    ['duty-peak-power', /D_p = /],
    ['fuel-system.pump.placement', /Where does the fuel pump sit/],
  ])('explains %s', async (topic, says) => {
    const { code, out } = await program(['explain', topic]);
    expect(code).toBe(0);
    expect(out).toMatch(says);
  });

  it('leads a misspelled topic to the right one', async () => {
    expect(await program(['explain', 'fuel-supply/hose-presure'])).toMatchObject({
      code: 2,
      complaints: expect.stringContaining('did you mean fuel-supply/hose-pressure?'),
    });
  });
});
