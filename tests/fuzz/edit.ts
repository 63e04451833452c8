import fc from 'fast-check';

/** One slip of the hand. `at` and `to` are shares of the text, in 1/10,000. */
export type Edit = {
  kind: Kind;
  at: number;
  to: number;
  size: number;
  piece: string;
  /** Whether an earlier version is taken up again instead. */
  goesBack: boolean;
  /** Whether the answers are compared with those of a service just started. */
  withFresh: boolean;
  withActions: boolean;
};

/** What YAML is made of, and what people type beside it. */
const pieces = [
  ...[
    '{',
    '}',
    '[',
    ']',
    ':',
    ': ',
    ',',
    ', ',
    '\n',
    '\r\n',
    '\r',
    '- ',
    '  ',
    '\t',
    '#',
    ' # note',
    '"',
    "'",
    '|',
    '>',
  ],
  ...['&a ', '*a', '<<: *a', '? ', '!!int ', '~', '---\n', '...\n', '%YAML 1.2\n', '\ufeff', '-', '+', '.', '@', '`'],
  ...['😀', 'é', '½', '\u00a0', '\u2028', '日本', '\u202e', '°', 'µ', '\0', '🏁 '],
  ...[
    '0',
    '-1',
    '1e999',
    '.inf',
    '.nan',
    '99999999999',
    '1.200 m',
    '5 +/- 9 %',
    '1..2',
    '..',
    '9 psi',
    '12 V',
    '3½ in',
  ],
  ...[
    'format: 1\n',
    'engine:',
    'stages:\n  - ',
    'silence:\n  - rule: ',
    'power: 5 hp',
    'changes: ',
    'induction: roots',
  ],
];

const values = [
  '1',
  '-3',
  'true',
  'false',
  'yes',
  'text',
  '""',
  '[]',
  '{}',
  '[1, 2]',
  '{ a: 1 }',
  '2020-01-01',
  '5 hp',
  '',
  '*a',
  '&a 1',
];

type Where = Pick<Edit, 'at' | 'to' | 'size' | 'piece'>;

const kinds = {
  type: (text, { at, piece }) => replaced(text, offset(text, at), 0, piece),
  overwrite: (text, { at, size, piece }) => replaced(text, offset(text, at), size, piece),
  delete: (text, { at, size }) => replaced(text, offset(text, at), size, ''),
  double: (text, { at, size }) => replaced(text, offset(text, at), 0, text.slice(offset(text, at)).slice(0, size)),
  'empty a value': (text, { at }) => onLine(text, at, (line) => line.replace(/:\s.*/, ':')),
  'swap a type': (text, { at, to }) =>
    onLine(text, at, (line) => line.replace(/:\s.*/, () => `: ${values[to % values.length]}`)),
  'misspell a key': (text, { at, size }) =>
    onLine(text, at, (line) => line.replace(/[a-z-]+:/, (key) => key.slice(size % 4))),
  'remove a line': (text, { at }) => onLine(text, at, () => undefined),
  'move a line': (text, { at, to }) => moved(text, at, to),
  'indent a line': (text, { at, size }) => onLine(text, at, (line) => ' '.repeat(1 + (size % 4)) + line),
  'outdent a line': (text, { at }) => onLine(text, at, (line) => line.replace(/^ {1,2}/, '')),
  'indent by a tab': (text, { at }) => onLine(text, at, (line) => `\t${line}`),
  'comment a line': (text, { at }) => onLine(text, at, (line) => `# ${line}`),
  'end lines otherwise': (text, { to }) => text.replaceAll(/\r\n|\r|\n/g, ['\r\n', '\n', '\r'][to % 3] as string),
  'anchor and alias': (text, { at, to }) =>
    onLine(
      onLine(text, at, (line) => line.replace(/: ?/, ': &a ')),
      to,
      (line) => line.replace(/:.*/, ': *a'),
    ),
} satisfies Record<string, (text: string, where: Where) => string>;

export type Kind = keyof typeof kinds;

/** One edit in five is compared with a fresh service, one in fifty asks for all actions as well. */
export const anEdit: fc.Arbitrary<Edit> = fc.record({
  kind: fc.constantFrom(...(Object.keys(kinds) as Kind[])),
  at: fc.nat(10_000),
  to: fc.nat(10_000),
  size: fc.nat(24),
  piece: fc.oneof(fc.constantFrom(...pieces), fc.string({ maxLength: 3 })),
  goesBack: fc.nat(9).map((number) => number === 9),
  withFresh: fc.nat(4).map((number) => number === 4),
  withActions: fc.nat(49).map((number) => number === 49),
});

/** The text after an edit that does not go back. */
export function edited(text: string, { kind, ...where }: Edit): string {
  return kinds[kind](text, where);
}

/** The offset an edit is about, in the text after it; between two whole characters. */
export function cursorOf(text: string, { at }: Edit): number {
  const there = offset(text, at);
  return /^[\ud800-\udbff][\udc00-\udfff]$/.test(text.slice(there - 1, there + 1)) ? there - 1 : there;
}

function offset(text: string, share: number): number {
  return Math.floor((share / 10_000) * text.length);
}

function replaced(text: string, at: number, size: number, piece: string): string {
  return text.slice(0, at) + piece + text.slice(at + size);
}

function onLine(text: string, at: number, change: (line: string) => string | undefined): string {
  const lines = text.split('\n');
  const index = Math.min(lines.length - 1, Math.floor((at / 10_000) * lines.length));
  const line = change(lines[index] as string);
  return [...lines.slice(0, index), ...(line === undefined ? [] : [line]), ...lines.slice(index + 1)].join('\n');
}

function moved(text: string, at: number, to: number): string {
  const lines = text.split('\n');
  const [line = ''] = lines.splice(Math.min(lines.length - 1, Math.floor((at / 10_000) * lines.length)), 1);
  lines.splice(Math.floor((to / 10_000) * lines.length), 0, line);
  return lines.join('\n');
}
