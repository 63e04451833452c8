/**
 * Mutation check by operator over the middle of the product: a seeded sample of places at which a comparison, a sum, a
 * truth is flipped, a statement, an argument or a spread dropped, or two arguments swapped. A mutant counts as noticed when
 * the compiler refuses it, when anything that fixtures, samples and whole sheets are compared by differs (findings, repairs
 * and their edits, figures with their bounds, open checks), when it does not end in time, or when a related test fails.
 *
 *   npm run mutate:operators -- --sites 300 --seed 1 --under server/src/checking [--tests] [--list]
 *
 * `--tests` also runs the related tests of those that are left; `--list` only prints the places.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { build } from 'esbuild';
import ts from 'typescript';
import { compilerOf } from './compiler.ts';
import { equivalent } from './mutants-without-effect.ts';
import { type Mutation, mutationsOf } from './mutations.ts';

const ROOMS = ['analysis', 'checking', 'features', 'lsp', 'sheet', 'text', 'workspace', 'report'];
/** Time after which a mutant counts as one that does not end, in ms. */
const LONGEST = 120_000;

const { values } = parseArgs({
  options: {
    sites: { type: 'string', default: '300' },
    seed: { type: 'string', default: '1' },
    under: { type: 'string', multiple: true },
    tests: { type: 'boolean', default: false },
    list: { type: 'boolean', default: false },
  },
});

/** Numbers from 0 to 1 that are the same for a seed. Source: Numerical Recipes, 2nd ed., section 7.1, quick generators. */
function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

function filesUnder(path: string): string[] {
  if (statSync(path).isFile()) return path.endsWith('.ts') && !path.endsWith('.d.ts') ? [path] : [];
  return readdirSync(path).flatMap((name) => filesUnder(join(path, name)));
}

/** So many of some things, in an order that the seed gives. */
function sampled<T>(all: readonly T[], count: number, next: () => number): T[] {
  const left = [...all];
  const taken: T[] = [];
  while (taken.length < count && left.length > 0) taken.push(...left.splice(Math.floor(next() * left.length), 1));
  return taken;
}

const cache = resolve('node_modules/.cache/mutants');
mkdirSync(cache, { recursive: true });
let bundles = 0;

/** What is observed with one file replaced: a digest, or why there is none. */
async function observed(path?: string, contents?: string): Promise<string> {
  const outfile = join(cache, `${process.pid}-${bundles++}.cjs`);
  await build({
    entryPoints: ['scripts/observations.ts'],
    bundle: true,
    platform: 'node',
    format: 'cjs',
    outfile,
    logLevel: 'silent',
    plugins: [
      {
        name: 'mutant',
        setup({ onLoad }) {
          onLoad({ filter: /\.ts$/ }, ({ path: loaded }) => {
            const source = loaded === path && contents !== undefined ? contents : readFileSync(loaded, 'utf8');
            const url = JSON.stringify(pathToFileURL(loaded).href);
            return { contents: source.replaceAll('import.meta.url', url), loader: 'ts' };
          });
        },
      },
    ],
  });
  const worker = new Worker(outfile);
  const answer = await new Promise<string>((done) => {
    const timer = setTimeout(() => done('no end'), LONGEST);
    worker.once('message', (digest: string) => {
      clearTimeout(timer);
      done(digest);
    });
    worker.once('error', (error) => {
      clearTimeout(timer);
      done(`fails: ${error.message}`);
    });
  });
  await worker.terminate();
  rmSync(outfile);
  return answer;
}

/** Whether a related test fails with a file replaced. */
function failsTests(path: string, contents: string): boolean {
  const mutant = join(cache, `${process.pid}-mutant.json`);
  writeFileSync(mutant, JSON.stringify({ path, contents }));
  const { status } = spawnSync(
    'npx',
    ['vitest', 'related', '--run', '--bail=1', '--maxWorkers=1', '--config', 'scripts/mutant.vitest.config.ts', path],
    { env: { ...process.env, MUTANT: mutant }, timeout: 10 * LONGEST, stdio: 'ignore' },
  );
  return status !== 0;
}

const roots = values.under ?? ROOMS.map((room) => `server/src/${room}`);
const sites = roots.flatMap(filesUnder).flatMap((file) => {
  const source = readFileSync(file, 'utf8');
  return mutationsOf(source).map((mutation): Mutation & { file: string; source: string } => ({
    ...mutation,
    file,
    source,
  }));
});
const sample = sampled(sites, Number(values.sites), random(Number(values.seed)));
console.log(`${sample.length} of ${sites.length} places, seed ${values.seed}`);

const compiler = compilerOf(ts);
const expected = values.list ? '' : await observed();
if (!values.list && !/^[0-9a-f]{64}$/.test(expected))
  throw new Error(`Nothing is observed without a mutant: ${expected}`);
const tally = { compiler: 0, observed: 0, tests: 0, equivalent: 0, survived: 0 };
for (const { file, source, start, end, text, told, line } of sample) {
  const name = `${relative('.', file)}:${line}: ${told}`;
  if (values.list) {
    console.log(name);
    continue;
  }
  const path = resolve(file);
  const contents = source.slice(0, start) + text + source.slice(end);
  if (equivalent.some(({ at, was }) => file.endsWith(at) && source.slice(start, end) === was)) tally.equivalent++;
  else if (compiler.refuses(path, contents)) tally.compiler++;
  else if ((await observed(path, contents)) !== expected) tally.observed++;
  else if (values.tests && failsTests(path, contents)) tally.tests++;
  else {
    tally.survived++;
    console.log(`survives ${name}`);
  }
}
if (!values.list) {
  const told = Object.entries(tally).map(([how, count]) => `${how} ${count}`);
  console.log(`${told.join(', ')}: ${((100 * tally.survived) / Math.max(1, sample.length)).toFixed(1)} % survive`);
}
