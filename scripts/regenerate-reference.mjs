import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * Runs every tests/reference/python/generate_*.py in a temporary folder and compares what they write with the committed
 * values: exit code 1 when a number differs by more than 1e-9 of itself or anything else differs at all, 2 when a script
 * could not run for want of a package. Which versions made the values may differ. `--write` takes the new values over. PYTHON names an interpreter to try first.
 */
const reference = fileURLToPath(new URL('../tests/reference/', import.meta.url));
const interpreters = [process.env.PYTHON, 'python3', '/usr/bin/python3'].filter(Boolean);
const write = process.argv.includes('--write');
const relativeTolerance = 1e-9;
const absoluteTolerance = 1e-12;

const folder = mkdtempSync(join(tmpdir(), 'reference-'));
let differing = 0;
let notRun = 0;
try {
  for (const part of ['python', 'sheets']) cpSync(join(reference, part), join(folder, part), { recursive: true });
  mkdirSync(join(folder, 'values'));
  const scripts = readdirSync(join(reference, 'python')).filter((name) => /^generate_.*\.py$/.test(name));
  for (const script of scripts.sort()) run(script);
  for (const file of readdirSync(join(folder, 'values')).sort()) compare(file);
  console.log(`${scripts.length - notRun} of ${scripts.length} scripts run, ${differing} files differ.`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
if (notRun > 0) process.exitCode = 2;
else if (differing > 0 && !write) process.exitCode = 1;

function run(script) {
  const text = readFileSync(join(reference, 'python', script), 'utf8');
  const imported = [...text.matchAll(/^(?:import|from) (\w+)/gm)].map((match) => match[1]);
  const modules = imported.filter((module) => !existsSync(join(reference, 'python', module)));
  const interpreter = interpreters.find((name) => canImport(name, modules));
  if (!interpreter) {
    console.error(
      `${script}: not run, no interpreter has all of ${[...new Set(modules)].join(', ')}; set PYTHON to one.`,
    );
    notRun += 1;
    return;
  }
  execFileSync(interpreter, [join(folder, 'python', script)], { stdio: 'inherit' });
}

function canImport(interpreter, modules) {
  try {
    execFileSync(interpreter, ['-c', `import ${modules.join(', ')}`], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

function compare(file) {
  const made = readFileSync(join(folder, 'values', file), 'utf8');
  const difference = firstDifference(JSON.parse(made), committedValues(file), file);
  console.log(difference ?? `${file}: as committed`);
  if (!difference) return;
  differing += 1;
  if (write) writeFileSync(join(reference, 'values', file), made);
}

function committedValues(file) {
  try {
    return JSON.parse(readFileSync(join(reference, 'values', file), 'utf8'));
  } catch {
    return undefined;
  }
}

/** The first place where two JSON values differ, in words, or undefined. */
function firstDifference(made, committed, place) {
  if (typeof made === 'number' && typeof committed === 'number') {
    const allowed = absoluteTolerance + relativeTolerance * Math.max(Math.abs(made), Math.abs(committed));
    return Math.abs(made - committed) <= allowed ? undefined : `${place}: made ${made}, committed ${committed}`;
  }
  if (made === null || typeof made !== 'object' || committed === null || typeof committed !== 'object') {
    return made === committed ? undefined : `${place}: made ${made}, committed ${committed}`;
  }
  for (const name of new Set([...Object.keys(made), ...Object.keys(committed)])) {
    if (name === 'made with') continue;
    const difference = firstDifference(made[name], committed[name], `${place}/${name}`);
    if (difference) return difference;
  }
  return undefined;
}
