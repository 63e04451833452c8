import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createRequire, wrap } from 'node:module';
import { dirname, join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { Script } from 'node:vm';
import { cacheFolder, keptIn } from './cli/cache-folder.ts';

/** The bundle this file was built with, all of it ASCII, the hash of its content, and what V8 is told before it runs. */
declare const BUNDLE: { file: string; hash: string; flags: readonly string[] };

const DAY = 86_400_000;
const SUM = 32;

/**
 * Runs a bundle. What V8 has compiled of it is kept in the user's cache folder, so that the next start need not
 * compile it again; where it cannot be kept, or does not fit this V8 and this bundle, the bundle is compiled as ever.
 */
function start(): void {
  for (const flag of BUNDLE.flags) setFlagsFromString(flag);
  const bundle = join(__dirname, BUNDLE.file);
  const file = join(cacheFolder(), `${process.versions.v8}-${process.arch}-${BUNDLE.hash}.bin`);
  const cachedData = compiledBefore(file);
  const script = new Script(wrap(readFileSync(bundle, 'latin1')), {
    filename: bundle,
    ...(cachedData && { cachedData }),
  });
  if (!cachedData || script.cachedDataRejected) keepLater(script, file);
  const module = { exports: {} };
  script.runInThisContext()(module.exports, createRequire(bundle), module, bundle, dirname(bundle));
}

/** What was kept, if it is whole and nobody else could have written it. */
function compiledBefore(file: string): Buffer | undefined {
  const kept = keptIn(file);
  const data = kept?.subarray(SUM);
  return data && kept && sumOf(data).equals(kept.subarray(0, SUM)) ? data : undefined;
}

function sumOf(data: Uint8Array): Buffer {
  return createHash('sha256').update(data).digest();
}

/** Keeps what was compiled once the program has something to show for it, at the latest when it ends. */
function keepLater(script: Script, file: string): void {
  let isKept = false;
  const keepOnce = () => {
    if (!isKept) keep(script, file);
    isKept = true;
  };
  setTimeout(keepOnce, 5000).unref();
  process.once('exit', keepOnce);
}

function keep(script: Script, file: string): void {
  try {
    const folder = dirname(file);
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    const data = script.createCachedData();
    const draft = `${file}.${process.pid}`;
    writeFileSync(draft, Buffer.concat([sumOf(data), data]), { mode: 0o600 });
    renameSync(draft, file);
    forgetOld(folder);
  } catch {
    // A start without it is slower and nothing else.
  }
}

/** Removes what earlier versions kept and nobody has written for a month. */
function forgetOld(folder: string): void {
  for (const name of readdirSync(folder)) {
    const file = join(folder, name);
    if (name.includes('.bin') && Date.now() - statSync(file).mtimeMs > 30 * DAY) rmSync(file);
  }
}

start();
