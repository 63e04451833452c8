// The server's core, bundled for a bench in this process.
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const ENTRY = `
export { analyze } from './server/src/analysis/analysis.ts';
export { figures } from './server/src/analysis/figures.ts';
export { repairsAt } from './server/src/features/repairs.ts';
export { validateSheet } from './server/src/generated/validate.js';
export { checkSheet, checkText } from './server/src/checking/checked.ts';
export { compose, plain } from './server/src/sheet/compose.ts';
export { noHouse } from './server/src/sheet/house.ts';
export { readText } from './server/src/sheet/read.ts';
export { Reader } from './server/src/sheet/reader.ts';
export { Service } from './server/src/service.ts';
export { inOneGo } from './server/src/text/steps.ts';
export { root } from './server/src/sheet/schema.ts';
export { parseDocument } from 'yaml';
`;

export async function core() {
  const outfile = join(mkdtempSync(join(tmpdir(), 'core-')), 'core.cjs');
  await build({
    stdin: { contents: ENTRY, resolveDir: process.cwd(), loader: 'ts' },
    bundle: true,
    platform: 'node',
    format: 'cjs',
    outfile,
    logLevel: 'warning',
  });
  return (await import(pathToFileURL(outfile).href)).default;
}

/**
 * Times of several calls in ms, warm: a list of rounds, each with one time a call. The calls take turns, so that a busy
 * moment of the machine counts against all of them.
 */
export function rounds(calls, count = 31) {
  for (let round = 0; round < 10; round++) for (const call of calls) call();
  return Array.from({ length: count }, () =>
    calls.map((call) => {
      const start = performance.now();
      call();
      return performance.now() - start;
    }),
  );
}

/**
 * Times of several calls in ms, warm: a list of times for each. Each has stretches to itself, in turns, so that neither the
 * garbage of one nor a busy moment of the machine counts against another.
 */
export function inTurns(calls, { turns = 4, count = 5 } = {}) {
  const times = calls.map(() => []);
  for (let turn = 0; turn < turns; turn++) {
    for (const [index, call] of calls.entries()) {
      call();
      globalThis.gc?.();
      for (let round = 0; round < count; round++) {
        const start = performance.now();
        call();
        if (turn > 0) times[index].push(performance.now() - start);
      }
    }
  }
  return times;
}

/** The middle one of some numbers. */
export function median(numbers) {
  return numbers.toSorted((one, other) => one - other)[numbers.length >> 1];
}

/** Rows of texts as a table, the first column to the left. */
export function table(rows) {
  const widths = rows[0].map((_, column) => Math.max(...rows.map((row) => String(row[column]).length)));
  return rows
    .map((row) =>
      row.map((cell, column) => String(cell)[column === 0 ? 'padEnd' : 'padStart'](widths[column])).join('  '),
    )
    .join('\n');
}
