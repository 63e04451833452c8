import { readdirSync, readFileSync, rmSync, statSync, unlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { progressOn } from '../../server/src/cli/progress.ts';
import { writeShop } from '../bench/many-sheets.mjs';
import { delivered, folderWith, program } from './program.ts';

const WAGON = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
const POINTS = WAGON.replace('trigger: magnetic-pickup', 'trigger: contact-points');
const CATALOG = 'format: 1\n';

/** More files than are checked without looking at what is kept. */
const files = (text: string, count = 45) =>
  Object.fromEntries(
    Array.from({ length: count }, (_, number) => [`bay-${number % 3}/car-${number}.build.yaml`, text]),
  );

function keeping(version = '1') {
  return { folder: join(folderWith({}), 'checks'), version };
}

describe('the checks that are kept', () => {
  it('give the same as without them, whatever was changed in between', { timeout: 180_000 }, async () => {
    const short =
      'format: 1\ntitle: t\nstages: [{ name: now, power: 245 hp }]\nignition: { trigger: contact-points }\n';
    const text = fc.constantFrom(
      short,
      short.replace('contact-points', 'magnetic-pickup'),
      'format: 1\n',
      'broken: {{\n',
      `${short}silence: [{ rule: ignition/contact-points, reason: so }]\n`,
    );
    const change = fc.record({
      file: fc.constantFrom('bay-0/car-0.build.yaml', 'bay-1/car-1.build.yaml', 'new.build.yaml'),
      text: fc.option(text, { nil: undefined }),
      house: fc.constantFrom(
        undefined,
        '',
        'units: si\n',
        'rules: { ignition/contact-points: { severity: hint } }\n',
        'limits: {{\n',
      ),
      at: fc.constantFrom('build-sheet.config.yaml', 'bay-0/build-sheet.config.yaml'),
      version: fc.constantFrom('1', '1', '2'),
      format: fc.constantFrom('concise', 'json', 'excerpt'),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(change, { minLength: 1, maxLength: 4 }), async (changes) => {
        const cwd = folderWith(files(short));
        const { folder } = keeping();
        for (const { file, text: now, house, at, version, format } of changes) {
          if (now === undefined) rmSync(join(cwd, file), { force: true });
          else writeFileSync(join(cwd, file), now);
          if (house === undefined) rmSync(join(cwd, at), { force: true });
          else writeFileSync(join(cwd, at), house);
          const plain = await program(['check', '-f', format], { cwd });
          expect(await program(['check', '-f', format], { cwd, keeping: { folder, version } })).toEqual(plain);
          expect(await program(['check', '-f', format], { cwd, keeping: { folder, version } })).toEqual(plain);
        }
      }),
      { numRuns: 4 },
    );
  });

  it('are taken over, and from a program of another version or of a file that is broken they are not', async () => {
    const cwd = folderWith(files('format: 1\n'));
    const kept = keeping();
    const plain = await program(['check', '-f', 'concise'], { cwd, keeping: kept });
    const [name = ''] = readdirSync(kept.folder);
    const file = join(kept.folder, name);
    expect(readdirSync(kept.folder)).toHaveLength(1);
    expect(statSync(file).mode & 0o077).toBe(0);
    const lying = readFileSync(file, 'utf8').replaceAll('"severity":"information"', '"severity":"warning"');
    const run = (version = '1', ...args: string[]) =>
      program(['check', '-f', 'concise', ...args], { cwd, keeping: { ...kept, version } });
    writeFileSync(file, lying);
    expect((await run()).out).not.toBe(plain.out);
    expect(await run('1', '--no-cache')).toEqual(plain);
    expect(await run('2')).toEqual(plain);
    for (const broken of [
      '',
      'nothing',
      lying.slice(0, 3000),
      lying.replaceAll('{', '['),
      lying.replaceAll('\n', ''),
    ]) {
      writeFileSync(file, broken);
      const { out } = await run();
      expect(out === plain.out || broken.startsWith('checks by 1\n')).toBe(true);
    }
    unlinkSync(file);
    writeFileSync(file, lying, { mode: 0o666 });
    expect(statSync(file).mode & 0o022 ? (await run()).out : plain.out).toBe(plain.out);
  });

  it('are not those of another catalog, wherever it stands among the files', async () => {
    const sheet = 'format: 1\nstages: [{ name: now, power: 245 hp }]\nignition: { use: pickup }\n';
    const shelf = (trigger: string) => `format: 1\nparts:\n  - id: pickup\n    ignition: { trigger: ${trigger} }\n`;
    const cwd = folderWith({
      ...files(sheet, 42),
      'build-sheet.config.yaml': "catalogs: ['**/*.parts.yaml']\n",
      'bay-0/all.parts.yaml': shelf('magnetic-pickup'),
    });
    const kept = keeping();
    const run = () => program(['check', '-f', 'concise'], { cwd, keeping: kept });
    expect((await run()).out).not.toContain('ignition/contact-points');
    writeFileSync(join(cwd, 'bay-0/all.parts.yaml'), shelf('contact-points'));
    const { out } = await run();
    expect(out.match(/ignition\/contact-points/g)).toHaveLength(42);
    expect(out).toBe((await program(['check', '-f', 'concise', '--no-cache'], { cwd })).out);
  });

  it('are not looked for where there are few files, and that they cannot be written is no fault', async () => {
    const few = keeping();
    await program(['check'], { cwd: folderWith({ 'one.build.yaml': POINTS }), keeping: few });
    expect(() => readdirSync(few.folder)).toThrow();
    const blocked = folderWith({ checks: 'a file' });
    const { code, complaints } = await program(['check', '-f', 'concise'], {
      cwd: folderWith(files(CATALOG)),
      keeping: { folder: join(blocked, 'checks'), version: '1' },
    });
    expect({ code, complaints }).toEqual({ code: 0, complaints: '' });
  });
});

describe('many files', () => {
  it('are checked by threads as by one, kept, and told in their order', { timeout: 300_000 }, async () => {
    const cwd = folderWith({});
    writeShop(cwd, 230);
    const plain = await program(['check', '-f', 'concise'], { cwd });
    const threaded = delivered(['check', '-f', 'concise'], cwd);
    expect({ code: threaded.status, out: threaded.stdout, complaints: threaded.stderr }).toEqual(plain);
    expect(delivered(['check', '-f', 'concise'], cwd).stdout).toBe(plain.out);
  });

  it.each([
    [true, '\r3 of 9 files checked<\r9 of 9 files checked<\r<'],
    [false, ''],
  ])('show how far long work has come where someone sits at the terminal: %s', (isAttended, expected) => {
    vi.useFakeTimers({ toFake: ['performance'] });
    onTestFinished(() => void vi.useRealTimers());
    let shown = '';
    const show = (text: string) => {
      shown += text;
    };
    const progress = progressOn({ isAttended, show });
    progress.tell(1, 9);
    vi.advanceTimersByTime(600);
    progress.tell(3, 9);
    progress.tell(4, 9);
    vi.advanceTimersByTime(150);
    progress.tell(9, 9);
    progress.end();
    expect(shown.replaceAll('\u001b[K', '<')).toBe(expected);
  });
});

describe('build-sheet check --watch', () => {
  it('checks again when a sheet or house rules change, and ends with the code of the last check', {
    timeout: 120_000,
  }, async () => {
    const cwd = folderWith({ 'one.build.yaml': WAGON });
    let out = '';
    let stop = () => {};
    const stopped = () =>
      new Promise<void>((resolve) => {
        stop = resolve;
      });
    const write = (text: string) => {
      out += text;
    };
    const shows = async (pattern: RegExp) => {
      while (!pattern.test(out)) await new Promise((wait) => setTimeout(wait, 20));
      out = '';
    };
    const running = program(['check', '--watch', '-f', 'concise', '--fail-on', 'error'], { cwd, write, stopped });
    await new Promise((wait) => setTimeout(wait, 50));
    writeFileSync(join(cwd, 'one.build.yaml'), POINTS);
    await shows(/one\.build\.yaml:\d+:\d+: error ignition\/contact-points/);
    writeFileSync(join(cwd, 'build-sheet.config.yaml'), 'rules: { ignition/contact-points: { severity: warning } }\n');
    await shows(/--- build-sheet\.config\.yaml changed\n.*warning ignition\/contact-points/);
    writeFileSync(join(cwd, 'two.build.yaml'), POINTS.replace('Quarry', 'Other'));
    await shows(/two\.build\.yaml:.* warning/);
    writeFileSync(join(cwd, 'build-sheet.config.yaml'), '');
    await shows(/two\.build\.yaml:.* error/);
    stop();
    expect((await running).code).toBe(1);
  });

  it('leaves in view on a terminal what keeps a check from being whole', { timeout: 120_000 }, async () => {
    const cwd = folderWith({ 'build-sheet.config.yaml': 'units: us\n' });
    let shown = '';
    let stop = () => {};
    const stopped = () =>
      new Promise<void>((resolve) => {
        stop = resolve;
      });
    const show = (text: string) => {
      shown += text;
    };
    const world = { cwd, columns: 100, write: show, complain: show, stopped };
    const running = program(['check', '--watch', 'build-sheet.config.yaml', 'gone.build.yaml'], world);
    while (!shown.includes('Ctrl-C')) await new Promise((wait) => setTimeout(wait, 20));
    stop();
    expect((await running).code).toBe(2);
    expect(shown.slice(shown.lastIndexOf('\u001b'))).toContain('there is no file or folder gone.build.yaml');
  });

  it.each([['-'], ['--fix'], ['--diff']])('goes not with %s', async (other) => {
    expect(await program(['check', '--watch', other])).toMatchObject({
      code: 2,
      complaints: expect.stringContaining('--watch goes neither'),
    });
  });
});
