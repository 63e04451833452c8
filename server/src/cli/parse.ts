import { parseArgs } from 'node:util';
import { closest, distance } from 'fastest-levenshtein';
import { Misuse, type Options, type OptionValue } from './verb.ts';

type Parsed = { operands: string[]; chosen: Record<string, OptionValue>; wantsHelp: boolean };

const HELP = { type: 'boolean', short: 'h' } as const;

/**
 * The operands and options of a command line.
 * @throws Misuse for an option that is not there, or has no value, or one that is not among its choices
 */
export function parse(args: readonly string[], options: Options): Parsed {
  const known = Object.fromEntries(
    Object.entries(options).map(([name, { type, short }]) => [name, { type, ...(short && { short }) }]),
  );
  const { tokens, positionals } = parseArgs({
    args: [...args],
    options: { ...known, help: HELP },
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const chosen: Record<string, OptionValue> = {};
  let wantsHelp = false;
  for (const token of tokens) {
    if (token.kind !== 'option') continue;
    const { name, rawName, value } = token;
    if (name === 'help') wantsHelp = true;
    else {
      const option = options[name] ?? unknown(rawName, options);
      const one = chosenValue(rawName, option, value);
      const before = chosen[name];
      chosen[name] = option.multiple ? [...(Array.isArray(before) ? before : []), String(one)] : one;
    }
  }
  return { operands: positionals, chosen, wantsHelp };
}

function unknown(rawName: string, options: Options): never {
  const meant = near(rawName, ['--help', ...Object.keys(options).map((name) => `--${name}`)]);
  throw new Misuse(`there is no option ${rawName}${meant ? `; did you mean ${meant}?` : '.'}`);
}

function chosenValue(rawName: string, { type, choices }: Options[string], value: string | undefined): string | boolean {
  if (type === 'boolean') {
    if (value !== undefined) throw new Misuse(`${rawName} takes no value.`);
    return true;
  }
  const wanted = choices ? `one of ${choices.join(', ')}` : 'a value';
  if (value === undefined) throw new Misuse(`${rawName} needs ${wanted}.`);
  if (choices && !choices.includes(value)) throw new Misuse(`${rawName} takes ${wanted}, not "${value}".`);
  return value;
}

/** The known word that is probably meant by a written one. */
export function near(written: string, known: readonly string[]): string | undefined {
  const best = closest(written, known);
  return distance(written, best) <= Math.max(1, Math.floor(written.length / 3)) ? best : undefined;
}
