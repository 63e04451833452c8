import type { HouseConfig } from '../generated/house-config.ts';
import { validateConfig } from '../generated/validate.js';
import type { Entry } from '../sheet/entry.ts';
import type { House } from '../sheet/house.ts';
import type { Problem } from '../sheet/problem.ts';
import { entryOf, readText, type Sheet } from '../sheet/read.ts';
import { houseRoot } from '../sheet/schema.ts';
import { endOfLine } from '../text/lines.ts';

/** What house rules may be at most, before anything in them is read. */
export const MOST_BYTES = 200_000;
const MOST_ENTRIES = 5000;

/** House rules as read from one version of their text. `known`: the ids of all rules. */
export function readHouse(text: string, known: ReadonlySet<string>): Sheet<HouseConfig> {
  const tooLarge = tooLargeFor(text);
  if (tooLarge) {
    const range = { start: 0, end: endOfLine(text, 0) };
    const problem: Problem = { code: 'sheet/too-large', message: tooLarge, range, fixes: [] };
    return { ...readText<HouseConfig>('', houseRoot, validateConfig), text, problems: [problem], broken: true };
  }
  const sheet = readText<HouseConfig>(text, houseRoot, validateConfig);
  const entries = entryOf(sheet, ['rules'])?.children ?? [];
  const rules = entries.flatMap((entry) => ruleProblem(entry, sheet.values, known));
  return { ...sheet, problems: [...sheet.problems, ...rules] };
}

function tooLargeFor(text: string): string | undefined {
  if (text.length > MOST_BYTES)
    return `House rules are at most ${MOST_BYTES / 1000} kB long; these are longer, so none of them holds.`;
  let entries = 0;
  for (const _ of text.matchAll(/[\r\n,]/g)) entries++;
  if (entries <= MOST_ENTRIES) return undefined;
  return `House rules have at most ${MOST_ENTRIES} lines and commas; these have more, so none of them holds.`;
}

function ruleProblem(entry: Entry, values: House, known: ReadonlySet<string>): Problem[] {
  const id = String(entry.path.at(-1));
  const range = entry.key ?? entry.value;
  const problem = (code: Problem['code'], message: string) => [{ code, message, range, fixes: [] }];
  if (!known.has(id)) return problem('house/unknown-rule', `There is no rule "${id}".`);
  const setting = values.rules?.[id];
  if (setting?.severity !== 'off' || setting.reason) return [];
  return problem('house/off-without-reason', `Say why "${id}" is off: add a "reason"; until then it stays on.`);
}
