import type { Quantity } from '../units/quantity.ts';
import { type Corner, Corners, type End, type Ends, looseUnder } from './corner.ts';
import { type Bounds, isKnown, type Outcome } from './figure.ts';
import type { FigureNode } from './node.ts';
import type { Entry, Worksheet } from './worksheet.ts';

const NOWHERE: Ends = new Map();

/** Most ways in which quantities that alone do not move a figure are moved together. */
const MOST_WAYS = 8;

/**
 * Bounds of figures from the tolerances of the quantities they stand on, by a monotone corner search: each quantity is
 * moved to its low and its high end alone to see which way the figure goes; then the figure is computed with every
 * quantity at the end that lowers it, and at the end that raises it. Quantities that alone do not move it, as where a
 * limit is not reached, are moved together in the ways in which they move what it is worked out of. Exact where a figure
 * is monotone in each quantity over its tolerance, which all corners and a low-discrepancy sample check in the tests.
 * Impossible at a corner, a figure keeps the ends found.
 */
export class Tolerances {
  private readonly corners: Corners;
  private readonly moves = new Map<Entry, readonly Ends[]>();

  constructor(private readonly nominal: Worksheet) {
    this.corners = new Corners(nominal);
  }

  /** The ends of a figure, or nothing where no tolerance moves it. */
  boundsOf(figure: FigureNode): Bounds | undefined {
    const entry = this.nominal.entryOf(figure);
    if (entry.bounds === undefined) entry.bounds = this.found(entry) ?? 'none';
    return entry.bounds === 'none' ? undefined : entry.bounds;
  }

  private found(entry: Entry): Bounds | undefined {
    const loose = [...looseUnder(entry)];
    const nominal = numberIn(entry.outcome);
    if (loose.length === 0 || nominal === undefined) return undefined;
    let [low, high] = [nominal, nominal];
    const at = (corner: Corner): number => {
      const value = numberIn(corner.see(entry.node)) ?? nominal;
      low = Math.min(low, value);
      high = Math.max(high, value);
      return value;
    };
    const rising = new Map<Quantity, End>();
    for (const one of loose)
      rising.set(one, directionOf(at(this.corners.alone(one, -1)), at(this.corners.alone(one, 1))));
    const still = loose.filter((one) => rising.get(one) === 0);
    const falling = turned(rising);
    for (const way of still.length > 0 && loose.length > 1 ? this.waysOf(entry, still) : [NOWHERE]) {
      at(this.corners.at(new Map([...rising, ...way])));
      at(this.corners.at(new Map([...falling, ...way])));
    }
    return directionOf(low, high) === 0 ? undefined : { low, high };
  }

  /**
   * Ways to move quantities that alone do not move an entry: as they move, all of them or in parts, one of the numbers it
   * is worked out of, to either side.
   */
  private waysOf(entry: Entry, still: readonly Quantity[]): Ends[] {
    const moves = this.different(this.movesUnder(entry, still)).toSorted((one, other) => other.size - one.size);
    const most = moves[0]?.size ?? 0;
    const moving = new Set(moves.flatMap((move) => [...move.keys()]));
    const whole = most === moving.size ? moves.filter(({ size }) => size === most).slice(0, MOST_WAYS / 2) : [];
    if (whole.length > 0) return whole.flatMap((move) => [move, turned(move)]);
    let ways: Ends[] = [NOWHERE];
    const left = new Set(moving);
    for (const move of moves) {
      const part = new Map([...move].filter(([one]) => left.delete(one)));
      if (part.size > 0 && ways.length < MOST_WAYS)
        ways = ways.flatMap((way) => [new Map([...way, ...part]), new Map([...way, ...turned(part)])]);
    }
    return ways;
  }

  /** Each way once, whichever side it is told from. */
  private different(moves: readonly Ends[]): Ends[] {
    const found = new Map<string, Ends>();
    for (const move of moves)
      if (!found.has(this.corners.keyOf(turned(move)))) found.set(this.corners.keyOf(move), move);
    return [...found.values()];
  }

  /** How quantities move the numbers that an entry is worked out of, the nearest that each moves at all. */
  private movesUnder(entry: Entry, quantities: readonly Quantity[]): Ends[] {
    return entry.used.flatMap((used) => {
      const here = quantities.filter((one) => looseUnder(used).has(one));
      if (here.length === 0) return [];
      const moves = this.movesOf(used).map((move) => new Map([...move].filter(([one]) => here.includes(one))));
      const still = here.filter((one) => !moves.some((move) => move.has(one)));
      const further = still.length > 0 ? this.movesUnder(used, still) : [];
      return [...moves.filter(({ size }) => size > 0), ...further];
    });
  }

  /** The directions in which the quantities under an entry, each alone, move each number in its value. */
  private movesOf(entry: Entry): readonly Ends[] {
    let moves = this.moves.get(entry);
    if (!moves) {
      moves = this.movesFound(entry);
      this.moves.set(entry, moves);
    }
    return moves;
  }

  private movesFound(entry: Entry): Ends[] {
    const moves = numbersIn(entry.outcome).map(() => new Map<Quantity, End>());
    for (const one of looseUnder(entry)) {
      const low = numbersIn(this.corners.alone(one, -1).see(entry.node));
      const high = numbersIn(this.corners.alone(one, 1).see(entry.node));
      for (const [index, move] of moves.entries()) {
        const direction = directionOf(low[index], high[index]);
        if (direction !== 0) move.set(one, direction);
      }
    }
    return this.different(moves);
  }
}

/** Whether a number grows or falls from one to another, or stays the same but for rounding. */
function directionOf(from = Number.NaN, to = Number.NaN): End {
  const slack = 1e-9 * Math.max(Math.abs(from), Math.abs(to));
  if (to - from > slack) return 1;
  return from - to > slack ? -1 : 0;
}

/** The same quantities at their other ends. */
function turned(ends: Ends): Ends {
  return new Map([...ends].map(([quantity, end]) => [quantity, -end as End]));
}

function numberIn(outcome: Outcome<unknown>): number | undefined {
  return isKnown(outcome) ? (outcome.value as number) : undefined;
}

/** Every number in the value of an outcome, in order. */
function numbersIn(outcome: Outcome<unknown>): number[] {
  return isKnown(outcome) ? numbersOf(outcome.value) : [];
}

function numbersOf(value: unknown, found: number[] = []): number[] {
  if (typeof value === 'number') found.push(value);
  else if (typeof value === 'object' && value !== null)
    for (const inner of Object.values(value)) numbersOf(inner, found);
  return found;
}
