import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { mustBeNew } from '../cli/program.ts';

const folder = mkdtempSync(join(tmpdir(), 'delivered-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('the tarball of npm pack', () => {
  it('installs into an empty folder without any other package, and checks', { timeout: 120_000 }, () => {
    mustBeNew();
    const packed = execFileSync('npm', ['pack', '--ignore-scripts', '--json', '--pack-destination', folder], {
      encoding: 'utf8',
    });
    const [{ filename, files }] = JSON.parse(packed) as [{ filename: string; files: { path: string }[] }];
    const paths = files.map(({ path }) => path);
    expect(paths).toEqual(
      expect.arrayContaining(['dist/build-sheet.cjs', 'dist/build-sheet-bundle.cjs', 'dist/licenses.txt']),
    );
    expect(paths.filter((path) => /^(server|tests|scripts)\/|\.vsix$|node_modules/.test(path))).toEqual([]);
    writeFileSync(join(folder, 'package.json'), '{ "private": true }');
    execFileSync('npm', ['install', '--offline', '--no-audit', '--no-fund', join(folder, filename)], { cwd: folder });
    expect(readdirSync(join(folder, 'node_modules')).filter((name) => !name.startsWith('.'))).toEqual(['build-sheet']);
    writeFileSync(join(folder, 'one.build.yaml'), 'format: 1\nignition: { trigger: contact-points }\n');
    const env = { ...process.env, XDG_CACHE_HOME: folder, LOCALAPPDATA: folder };
    const program = join(folder, 'node_modules', '.bin', 'build-sheet');
    const ran = spawnSync(program, ['check', '-f', 'concise'], { cwd: folder, encoding: 'utf8', env });
    expect(ran).toMatchObject({
      status: 1,
      stderr: '',
      stdout: expect.stringContaining('error ignition/contact-points'),
    });
  });
});
