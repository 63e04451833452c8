import type { Option, Verb } from './verb.ts';
import { wrapped } from './wrap.ts';

const WIDTH = 100;

/** What the program can do, verb by verb. */
export function programHelp(verbs: Readonly<Record<string, Verb>>): string {
  const rows = Object.entries(verbs).map(
    ([name, { about, operands }]) => [`${name} ${operands}`.trim(), about] as const,
  );
  return sections(
    "build-sheet checks, explains and completes build sheets: records of an engine's conversion from a carburetor to throttle-body fuel injection.",
    `Usage: build-sheet VERB ...\n\n${columns(rows)}`,
    'build-sheet VERB --help tells more of one, with examples; build-sheet --version which version this is.',
    `Exit codes\n${columns([
      ['0', 'nothing found at or above the bar'],
      ['1', 'something found at or above the bar'],
      ['2', 'wrong usage, a file that cannot be read, or house rules that do not hold'],
      ['3', 'a fault of our own'],
    ])}`,
    'Colors are used on a terminal, unless NO_COLOR is set.',
  );
}

/** How one verb is used. */
export function verbHelp(name: string, { about, operands, details, options, examples }: Verb): string {
  const rows = [...Object.entries(options).map(optionRow), ['-h, --help', 'this help'] as const];
  return sections(
    `Usage: build-sheet ${name} ${[...(rows.length > 1 ? ['[options]'] : []), operands].join(' ')}`.trim(),
    about,
    ...(details ? details.split('\n\n') : []),
    `Options\n${columns(rows)}`,
    `Examples\n${examples.map(([line, does]) => `  build-sheet ${line}\n      ${does}`).join('\n')}`,
  );
}

function optionRow([name, { short, value, choices, about }]: [string, Option]): readonly [string, string] {
  const head = [short ? `-${short}, --${name}` : `--${name}`, value].filter(Boolean).join(' ');
  return [head, choices ? `${about}: ${choices.join(', ')}` : about];
}

function sections(...parts: readonly string[]): string {
  return `${parts.map((part) => (part.includes('\n') ? part : wrapped(part, WIDTH))).join('\n\n')}\n`;
}

function columns(rows: readonly (readonly [string, string])[]): string {
  const width = Math.min(28, Math.max(...rows.map(([head]) => head.length)));
  const indent = ' '.repeat(width + 4);
  return rows
    .map(([head, text]) => {
      const lines = wrapped(text, WIDTH - indent.length)
        .split('\n')
        .join(`\n${indent}`);
      return head.length > width ? `  ${head}\n${indent}${lines}` : `  ${head.padEnd(width)}  ${lines}`;
    })
    .join('\n');
}
