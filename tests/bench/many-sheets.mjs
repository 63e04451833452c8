// Sheets of a large shop for the benches: every sample over and over, each with other numbers, a title and stages of its own.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Numbers from 0 to 1 that are the same in every run. */
function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** One sheet of many, by its number. */
export function sheetOf(number, samples) {
  const random = seeded(number * 7919 + 1);
  const sample = samples[number % samples.length];
  const varied = sample.replace(
    /(?<=[ [{])\d+(?:\.\d+)?(?= (?:hp|L|psi|L\/h|lb\/h|mm|m|degC|rpm|A|V|ms|in|kPa)\b)/g,
    (text) => (random() < 0.4 ? String(Number((Number(text) * (0.8 + 0.4 * random())).toPrecision(3))) : text),
  );
  return varied.replace(/^title: .*$/m, `title: car ${number}`);
}

/** Writes so many sheets into some folders. */
export function writeShop(folder, count) {
  const samples = readdirSync('samples')
    .filter((name) => name.endsWith('.build.yaml'))
    .map((name) => readFileSync(join('samples', name), 'utf8'));
  for (let number = 0; number < count; number++) {
    const bay = join(folder, `bay-${number % 50}`);
    if (number < 50) mkdirSync(bay, { recursive: true });
    writeFileSync(join(bay, `car-${number}.build.yaml`), sheetOf(number, samples));
  }
}
