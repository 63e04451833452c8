// A full sheet with three stages and as many dated notes as it takes to reach a number of lines.
import { readFileSync } from 'node:fs';

const WORDS = [
  'leak test',
  'idle steady',
  'fuel 41 degC',
  'plugs dry',
  'rail 58 psi',
  'no knock heard',
  'fan comes in late',
];

export function longSheet(lines) {
  const base = readFileSync('samples/quarry-wagon.build.yaml', 'utf8').trimEnd();
  const third = base.replace(
    /^( +)- \{ name: camshaft.*$/m,
    (line, indent) => `${line}\n${indent}- { name: hot summer, power: 295 hp, induction: natural }`,
  );
  const text = third.split('\n');
  text.push('notes:');
  for (let day = 0; text.length < lines; day++) {
    const date = new Date(Date.UTC(2020, 0, 1 + day)).toISOString().slice(0, 10);
    text.push(`  - date: ${date}`, `    note: ${WORDS[day % WORDS.length]}, run ${day}`);
  }
  return `${text.slice(0, Math.max(lines, third.split('\n').length)).join('\n')}\n`;
}
