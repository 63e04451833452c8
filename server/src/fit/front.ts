/** What an option is measured by: cost over the whole plan, the least margin, parts changed, wishes met. */
export type Measures = {
  cost: number | undefined;
  margin: number | undefined;
  changed: number;
  wishes: number;
};

export type BestAt = 'cost' | 'margin' | 'fewest parts' | 'wishes';

/** Most options that are shown. */
const MOST_OPTIONS = 7;

/** Measures as numbers of which less is better; an unknown cost or margin is the worst. */
function keysOf({ cost, margin, changed, wishes }: Measures): readonly number[] {
  return [cost ?? Number.POSITIVE_INFINITY, -(margin ?? Number.NEGATIVE_INFINITY), changed, -wishes];
}

function dominates(one: readonly number[], other: readonly number[]): boolean {
  return (
    one.every((key, index) => key <= (other[index] as number)) &&
    one.some((key, index) => key < (other[index] as number))
  );
}

/** The options that no other one beats in something without being beaten in anything, the cheapest first. */
export function frontOf<Option extends Measures>(options: readonly Option[]): Option[] {
  const keyed = options.map((option) => ({ option, keys: keysOf(option) }));
  const front = keyed.filter(({ keys }) => !keyed.some((other) => dominates(other.keys, keys)));
  return front.toSorted((one, other) => compare(one.keys, other.keys)).map(({ option }) => option);
}

function compare(one: readonly number[], other: readonly number[]): number {
  const index = one.findIndex((key, at) => key !== other[at]);
  return index < 0 ? 0 : (one[index] as number) < (other[index] as number) ? -1 : 1;
}

/** Of a front at most seven, among them the best at each measure, each with what it is best at. */
export function shownOf<Option extends Measures>(front: readonly Option[]): (Option & { bestAt: readonly BestAt[] })[] {
  const best = bestOf(front);
  const needed = new Set([...best.values()]);
  const others = front.filter((option) => !needed.has(option)).slice(0, Math.max(0, MOST_OPTIONS - needed.size));
  return front
    .filter((option) => needed.has(option) || others.includes(option))
    .map((option) => ({ ...option, bestAt: [...best].flatMap(([at, one]) => (one === option ? [at] : [])) }));
}

function bestOf<Option extends Measures>(front: readonly Option[]): Map<BestAt, Option> {
  const names: readonly BestAt[] = ['cost', 'margin', 'fewest parts', 'wishes'];
  const best = new Map<BestAt, Option>();
  for (const [index, name] of names.entries()) {
    const keys = front.map((option) => keysOf(option)[index] as number);
    const least = Math.min(...keys);
    const at = keys.indexOf(least);
    const tells = keys.some((key) => key > least) || (front.length === 1 && Number.isFinite(least) && index < 2);
    const option = front[at];
    if (option && tells) best.set(name, option);
  }
  return best;
}
