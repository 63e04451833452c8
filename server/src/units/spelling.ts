/** Units spelled out or in other characters, and how the table of units writes them: `cubic inches` is `in^3`. */

const CHARACTERS: Record<string, string> = {
  '²': '^2',
  '³': '^3',
  '·': '*',
  '⋅': '*',
  '×': '*',
  µ: 'u',
  μ: 'u',
  '\u2126': 'ohm',
  Ω: 'ohm',
  '°': 'deg',
  º: 'deg',
  '℃': 'degC',
  '℉': 'degF',
  '“': '"',
  '”': '"',
  '″': '"',
  '‘': "'",
  '’': "'",
  '′': "'",
};

const PREFIXES: Record<string, string> = { micro: 'u', milli: 'm', centi: 'c', hecto: 'h', kilo: 'k', mega: 'M' };

const METRIC: Record<string, string> = {
  meter: 'm',
  metre: 'm',
  liter: 'L',
  litre: 'L',
  gram: 'g',
  second: 's',
  watt: 'W',
  volt: 'V',
  amp: 'A',
  ampere: 'A',
  ohm: 'ohm',
  henry: 'H',
  pascal: 'Pa',
  bar: 'bar',
  joule: 'J',
  newton: 'N',
};

const WORDS: Record<string, string> = {
  inch: 'in',
  inches: 'in',
  in: 'in',
  foot: 'ft',
  feet: 'ft',
  ft: 'ft',
  yard: 'yd',
  yd: 'yd',
  mile: 'mi',
  micron: 'um',
  l: 'L',
  ltr: 'L',
  cc: 'cc',
  gallon: 'gal',
  gal: 'gal',
  quart: 'qt',
  qt: 'qt',
  pound: 'lb',
  lb: 'lb',
  ounce: 'oz',
  oz: 'oz',
  kg: 'kg',
  sec: 's',
  msec: 'ms',
  usec: 'us',
  minute: 'min',
  min: 'min',
  hour: 'h',
  hr: 'h',
  horsepower: 'hp',
  bhp: 'hp',
  degree: 'deg',
  deg: 'deg',
  fahrenheit: 'F',
  celsius: 'C',
  centigrade: 'C',
  kelvin: 'K',
  kilohm: 'kohm',
  henries: 'H',
  millihenries: 'mH',
  microhenries: 'uH',
  revolution: 'rev',
  rev: 'rev',
  mercury: 'Hg',
  hg: 'Hg',
  water: 'H2O',
  percent: '%',
  pct: '%',
  cu: 'cubic',
  sq: 'square',
  gage: 'gauge',
  per: '/',
  of: '',
};

/** The symbol a word stands for, singular or plural, whatever its letter case. */
function symbolOf(word: string): string | undefined {
  const lower = word.toLowerCase();
  const singular = lower.length > 2 && lower.endsWith('s') ? lower.slice(0, -1) : lower;
  for (const one of [lower, singular]) {
    const own = Object.hasOwn(WORDS, one) ? WORDS[one] : Object.hasOwn(METRIC, one) ? METRIC[one] : undefined;
    if (own !== undefined) return own;
    const prefix = Object.keys(PREFIXES).find((prefix) => one.startsWith(prefix));
    const base = prefix && one.slice(prefix.length);
    if (base && Object.hasOwn(METRIC, base)) return `${PREFIXES[prefix]}${METRIC[base]}`;
  }
  return undefined;
}

/** Every word that stands for a symbol, in the singular. */
export const unitWords: readonly string[] = [
  ...Object.keys(WORDS),
  ...Object.keys(METRIC),
  ...Object.keys(PREFIXES).flatMap((prefix) => Object.keys(METRIC).map((base) => `${prefix}${base}`)),
];

/** Whether a word, singular or plural, stands for a symbol. */
export function isUnitWord(word: string): boolean {
  return symbolOf(word) !== undefined;
}

/** Most characters of anything that could be a unit. */
const LONGEST = 60;

/**
 * A unit's name in one spelling: words as symbols, `per` as `/`, `cubic` and `square` as powers, without the points of
 * abbreviations and needless spaces. What is no unit comes back as some text that is none.
 */
export function canonical(name: string): string {
  if (name.length > LONGEST) return name;
  return [...name]
    .map((character) => CHARACTERS[character] ?? character)
    .join('')
    .replaceAll(/[a-z]+/gi, (word) => symbolOf(word) ?? word)
    .replaceAll(/cubic[.\s]+([a-z]+)/gi, '$1^3')
    .replaceAll(/square[.\s]+([a-z]+)/gi, '$1^2')
    .replaceAll(/([a-z])([23])(?![a-z\d])/gi, '$1^$2')
    .replaceAll(/\.(?=$|[\s/)])/g, '')
    .replaceAll(/\s+/g, ' ')
    .replaceAll(/ ?([/*^()]) ?/g, '$1')
    .trim();
}
