import { quoted } from '../text/echo.ts';
import { isQuantityValue } from '../units/quantity.ts';
import { editsFor } from './edit.ts';
import { pathText } from './entry.ts';
import { isFields, type Path, valueAt } from './path.ts';
import type { Problem } from './problem.ts';
import { entryOf, nearestEntry, type Sheet } from './read.ts';
import type { Shelf, ShelfPart } from './shelf.ts';
import type { Taken, TakenKit } from './take-over.ts';
import type { Parts } from './with-parts.ts';
import { near } from './words.ts';

/** Days after which a price is old: half a year. Common practice. */
const PRICE_LASTS = 183;

type Text = Pick<Sheet, 'text' | 'root'>;
type About = Omit<Problem, 'range' | 'fixes'> & Partial<Pick<Problem, 'fixes'>>;

/** What is wrong with what a sheet takes over from catalogs, each at the place where it is named. */
export function partProblems(sheet: Text, { taken, kits, shelf, own }: Parts): Problem[] {
  return [
    ...kits.flatMap((kit) => kitProblems(sheet, kit, shelf)),
    ...taken.flatMap((one) => [...idProblems(sheet, one, shelf), ...buyingProblems(sheet, one, shelf)]),
    ...taken.flatMap((one) => overrideProblems(sheet, one, own)),
  ];
}

function at({ root }: Text, path: Path, about: About): Problem {
  return { fixes: [], ...about, range: nearestEntry({ root }, path).value };
}

function kitProblems(sheet: Text, { place, id, isKnown, cycle }: TakenKit, shelf: Shelf): Problem[] {
  if (!isKnown) return [unknown(sheet, place, id, 'kits', shelf)];
  if (!cycle) return [];
  const message = `Kit ${quoted(id)} holds itself: ${cycle.map((one) => quoted(one)).join(' holds ')}.`;
  return [at(sheet, place, { code: 'catalog/kit-cycle', message, ...relatedTo(shelf, id, 'This kit.') })];
}

function unknown(sheet: Text, place: Path, id: string, list: 'parts' | 'kits', shelf: Shelf): Problem {
  const what = list === 'kits' ? 'kit' : 'part';
  const code = list === 'kits' ? 'catalog/unknown-kit' : 'catalog/unknown-part';
  const likely = near(id, shelf.ids(list));
  const message = shelf.isEmpty
    ? `There is no catalog to take ${what} ${quoted(id)} from: name it under "catalogs" in the house rules.`
    : `No catalog has a ${what} ${quoted(id)}${likely ? `; did you mean ${quoted(likely)}?` : '.'}`;
  const { value } = nearestEntry(sheet, place);
  const fixes = likely
    ? [{ title: `Write ${quoted(likely)}`, edits: [{ ...value, text: likely }], preferred: true }]
    : [];
  return at(sheet, place, { code, message, fixes });
}

function idProblems(sheet: Text, { place, id, slot, part, kit }: Taken, shelf: Shelf): Problem[] {
  const others = shelf.placesOf(id);
  if (!part) {
    const found = shelf.part(id);
    if (found) {
      const message = `${quoted(id)} is ${withArticle(found.kind)}, not ${withArticle(slot.kind)}.`;
      return [at(sheet, place, { code: 'catalog/wrong-kind', message, ...relatedTo(shelf, id, 'This part.') })];
    }
    if (others.length === 0) {
      const problem = unknown(sheet, place, id, 'parts', shelf);
      return [kit ? { ...problem, fixes: [] } : problem];
    }
    const message = `The catalog has ${quoted(id)}, but what it is cannot be read there.`;
    return [at(sheet, place, { code: 'catalog/part-broken', message, ...relatedTo(shelf, id, 'This part.') })];
  }
  if (others.length < 2) return [];
  const message = `${others.length} parts of the catalogs are called ${quoted(id)}; the first is taken.`;
  const related = others.map((other) => ({ ...other, message: `A part called ${quoted(id)}.` }));
  return [at(sheet, place, { code: 'catalog/double-id', severity: 'warning', message, related })];
}

/** Whether it can be had, and for how much. */
function buyingProblems(sheet: Text, { place, id, part }: Taken, shelf: Shelf): Problem[] {
  if (!part) return [];
  const related = relatedTo(shelf, id, 'This part.');
  const told = (code: Problem['code'], severity: 'warning' | 'information', message: string | undefined) =>
    message ? [at(sheet, place, { code, severity, message, ...related })] : [];
  return [
    ...told('catalog/out-of-stock', 'warning', notToBeHad(part, shelf.today)),
    ...told('catalog/cost-missing', 'information', part.cost === undefined ? `${quoted(id)} has no price.` : undefined),
    ...told('catalog/price-old', 'information', oldPrice(part, shelf.today)),
  ];
}

/** Why a part cannot be had today, if it cannot. */
function notToBeHad({ id, stock, available }: ShelfPart, today: string | undefined): string | undefined {
  if (available && today && available > today) return `${quoted(id)} can be had from ${available} on.`;
  if (stock !== 0) return undefined;
  return available && !today
    ? `${quoted(id)} is not in stock; it is said to come on ${available}.`
    : `${quoted(id)} is not in stock.`;
}

function oldPrice({ id, cost, quoted: day }: ShelfPart, today: string | undefined): string | undefined {
  if (cost === undefined) return undefined;
  if (!day) return `Nobody wrote down when the price of ${quoted(id)} was asked for.`;
  const age = today ? Math.round((Date.parse(today) - Date.parse(day)) / 86_400_000) : 0;
  return age > PRICE_LASTS ? `The price of ${quoted(id)} is of ${day}, ${age} days ago: ask again.` : undefined;
}

/** Fields beside `use` that say what the part says. */
function overrideProblems(sheet: Text, { section, part, id, kit }: Taken, own: Sheet['values']): Problem[] {
  if (!part || kit) return [];
  return sameFields(valueAt(own, section), part.fields, section).flatMap((path) => {
    const entry = entryOf(sheet, path);
    if (!entry || entry.inherited || entry.kind === 'empty') return [];
    const edits = editsFor(sheet, [{ remove: path }]);
    const name = pathText(path.slice(section.length));
    return at(sheet, path, {
      code: 'catalog/override-without-effect',
      severity: 'hint',
      message: `${quoted(name)} says what ${quoted(id)} says already.`,
      fixes: edits ? [{ title: `Leave ${quoted(name)} to the catalog`, edits, preferred: true }] : [],
    });
  });
}

function sameFields(own: unknown, fields: unknown, path: Path): Path[] {
  if (!isFields(own) || !isFields(fields)) return own !== undefined && isSame(own, fields) ? [path] : [];
  return Object.keys(own).flatMap((name) =>
    name in fields ? sameFields(own[name], fields[name], [...path, name]) : [],
  );
}

function isSame(one: unknown, other: unknown): boolean {
  if (isQuantityValue(one) && isQuantityValue(other))
    return one.value === other.value && one.low === other.low && one.high === other.high;
  if (Array.isArray(one) && Array.isArray(other))
    return one.length === other.length && one.every((item, index) => isSame(item, other[index]));
  return one === other;
}

function relatedTo(shelf: Shelf, id: string, message: string): Pick<Problem, 'related'> {
  const place = shelf.placeOf(id);
  return place ? { related: [{ ...place, message }] } : {};
}

/** A kind with its article: `a pump`, `an adapter`, `injectors`. */
function withArticle(kind: string): string {
  const words = kind.replaceAll('-', ' ');
  if (words.endsWith('injectors') || words === 'ignition') return words;
  return `${/^[aeiou]/.test(words) ? 'an' : 'a'} ${words}`;
}
