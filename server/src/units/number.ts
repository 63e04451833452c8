/** A number in a text: its value, and where it stands. */
export type Written = { value: number; start: number; end: number };

const VULGAR: Record<string, number> = {
  '½': 1 / 2,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '¼': 1 / 4,
  '¾': 3 / 4,
  '⅕': 1 / 5,
  '⅖': 2 / 5,
  '⅗': 3 / 5,
  '⅘': 4 / 5,
  '⅙': 1 / 6,
  '⅚': 5 / 6,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
};

/** Reads from left to right; each step takes what matches at its place or nothing. */
const SIGN = /[+−-]?/y;
const DIGITS = /\d+(?:_\d+)*/y;
const DECIMALS = /\.(?!\.)\d*/y;
const EXPONENT = /[eE][+-]?\d+/y;
const UNDER = /[/⁄](\d+)/y;
const FRACTION = /(?:\s+|-)(\d+)[/⁄](\d+)/y;
const VULGAR_FRACTION = /(?:\s+|-)?([¼-¾⅓-⅞])/y;
const VULGAR_ALONE = /[¼-¾⅓-⅞]/y;

/** The number at a place of a text: `350`, `1_000`, `.5`, `1e3`, `3/8`, `1 3/4`, `1-3/4`, `3½`. */
export function numberAt(text: string, start: number): Written | undefined {
  let end = start;
  const take = (pattern: RegExp) => {
    pattern.lastIndex = end;
    const match = pattern.exec(text);
    if (match) end += match[0].length;
    return match;
  };
  const sign = take(SIGN)?.[0] === '' || text[start] === '+' ? 1 : -1;
  const whole = take(DIGITS)?.[0].replaceAll('_', '');
  const size = whole === undefined ? withoutWhole(take) : withWhole(whole, take);
  return size === undefined ? undefined : { value: sign * size, start, end };
}

type Take = (pattern: RegExp) => RegExpExecArray | null;

function withWhole(whole: string, take: Take): number {
  const under = take(UNDER)?.[1];
  if (under !== undefined) return Number(whole) / Number(under);
  const vulgar = take(VULGAR_FRACTION)?.[1];
  if (vulgar !== undefined) return Number(whole) + (VULGAR[vulgar] ?? Number.NaN);
  const fraction = take(FRACTION);
  if (fraction) return Number(whole) + Number(fraction[1]) / Number(fraction[2]);
  const decimals = take(DECIMALS)?.[0] ?? '';
  return Number(whole + decimals + (take(EXPONENT)?.[0] ?? ''));
}

function withoutWhole(take: Take): number | undefined {
  const vulgar = take(VULGAR_ALONE)?.[0];
  if (vulgar !== undefined) return VULGAR[vulgar];
  const decimals = take(DECIMALS)?.[0] ?? '.';
  return decimals === '.' ? undefined : Number(decimals + (take(EXPONENT)?.[0] ?? ''));
}
