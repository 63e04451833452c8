// Checks a shop of many sheets cold and warm, and three files, beside the floor of parsing and validation alone and a
// general linter on as many files of that size. Run from the project's folder after a build:
// node tests/bench/many-files.mjs [SHEETS]
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { install } from './anchors.mjs';
import { writeShop } from './many-sheets.mjs';

const COUNT = Number(process.argv[2] ?? 10_000);
const PROGRAM = resolve('dist/build-sheet.cjs');
const FLOOR = resolve('tests/bench/floor.mjs');
const LINTER = resolve('tests/bench/node_modules/eslint/bin/eslint.js');

/** Seconds a program takes, those of work it does, and the megabytes it holds at most. */
async function timed(args, cwd, env) {
  const start = performance.now();
  const child = spawn(process.execPath, args, { cwd, env, stdio: ['ignore', 'ignore', 'inherit'] });
  let [megabytes, work] = [0, 0];
  const look = () => {
    try {
      const status = readFileSync(`/proc/${child.pid}/status`, 'utf8');
      megabytes = Math.max(megabytes, Number(/VmHWM:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024);
      const [user, system] = readFileSync(`/proc/${child.pid}/stat`, 'utf8').split(' ').slice(13, 15);
      work = (Number(user) + Number(system)) / 100;
    } catch {
      // It has just ended, or there is no /proc here.
    }
  };
  const timer = setInterval(look, 50);
  await new Promise((done) => child.on('close', done));
  clearInterval(timer);
  return { seconds: (performance.now() - start) / 1000, work, megabytes };
}

const shop = mkdtempSync(join(tmpdir(), 'many-files-'));
const cache = mkdtempSync(join(tmpdir(), 'many-files-cache-'));
const env = { ...process.env, XDG_CACHE_HOME: cache, LOCALAPPDATA: cache };
const check = (...args) => [PROGRAM, 'check', '--format', 'concise', ...args];
try {
  writeShop(shop, COUNT);
  await timed([PROGRAM, '--version'], shop, env);
  const runs = {
    'three files': await timed(
      check('bay-0/car-0.build.yaml', 'bay-1/car-1.build.yaml', 'bay-2/car-2.build.yaml'),
      shop,
      env,
    ),
    [`${COUNT} files, cold`]: await timed(check('.'), shop, env),
    [`${COUNT} files, warm`]: await timed(check('.'), shop, env),
    [`${COUNT} files, warm, with excerpts, cold for them`]: await timed([PROGRAM, 'check', '.'], shop, env),
  };
  runs[`${COUNT} files, parsed and validated only`] = await timed([FLOOR, shop, resolve('.')], resolve('.'), env);
  runs['a bare start of Node'] = await timed(['-e', '0'], shop, env);
  if (!existsSync(LINTER)) install();
  const config = resolve('tests/bench/linter.config.mjs');
  runs[`a general linter, ${COUNT} files`] = await timed([LINTER, '-c', config, '.'], shop, env);
  console.log(
    `${availableParallelism()} cores, load ${loadavg()[0].toFixed(1)}; a time taken at a load above that of the bench is worth nothing`,
  );
  const cold = runs[`${COUNT} files, cold`];
  for (const [name, { seconds, work, megabytes }] of Object.entries(runs))
    console.log(
      `${name}: ${seconds.toFixed(2)} s, ${work.toFixed(1)} s of work, ${Math.round(megabytes)} MB; ${(work / cold.work).toFixed(2)} of the cold check's work`,
    );
} finally {
  for (const folder of [shop, cache]) rmSync(folder, { recursive: true });
}
