import { readdirSync, readFileSync } from 'node:fs';
import { fixtures, readFixture, readMarked } from '../rules/fixture.ts';

/** The texts that edits start from: all samples and the sheets of all rule fixtures. */
export function sources(): string[] {
  const samples = readdirSync('samples')
    .filter((file) => file.endsWith('.build.yaml'))
    .map((file) => readFileSync(`samples/${file}`, 'utf8'));
  const ofRules = fixtures().flatMap(({ folder, bad, good }) =>
    [...bad, ...good].map((file) => readMarked(readFixture(folder, file)).text),
  );
  return [...samples, ...ofRules];
}
