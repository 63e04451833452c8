import { type Corner, Corners, type End, type Ends, looseUnder } from './corner.ts';
import { type Bounds, isKnown, type Outcome } from './figure.ts';
import type { FigureNode } from './node.ts';
import type { Entry, Worksheet } from './worksheet.ts';

const NOWHERE: Ends = [];

/** Most ways in which quantities that alone do not move a figure are moved together. */
const MOST_WAYS = 8;

/**
 * Bounds of figures from the tolerances of the quantities they stand on, by a monotone corner search: each quantity is
 * moved to its low and its high end alone to see which way the figure goes; then the figure is computed with every
 * quantity at the end that lowers it, and at the end that raises it. Quantities that alone do not move it, as where a
 * limit is not reached, are moved together in the ways in which they move what it is worked out of. Exact where a figure
 * is monotone in each quantity over its tolerance, which all corners and a low-discrepancy sample check in the tests.
 * Where an end alone makes a figure impossible, that quantity stays in the middle.
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
    const loose = this.corners.numbersOf(looseUnder(entry));
    const nominal = numberIn(entry.outcome);
    if (loose.length === 0 || nominal === undefined) return undefined;
    let [low, high] = [nominal, nominal];
    const at = (corner: Corner): number | undefined => {
      const value = numberIn(corner.see(entry.node));
      if (value === undefined) return undefined;
      low = Math.min(low, value);
      high = Math.max(high, value);
      return value;
    };
    const rising: End[] = [];
    const falling: End[] = [];
    for (const one of loose) {
      const ends = [at(this.corners.alone(one, -1)), at(this.corners.alone(one, 1))] as const;
      const direction = directionOf(ends[0] ?? nominal, ends[1] ?? nominal);
      rising[one] = possible(direction, ends);
      falling[one] = possible(turn(direction), ends);
    }
    const still = loose.filter((one) => !rising[one] && !falling[one]);
    for (const way of still.length > 0 && loose.length > 1 ? this.waysOf(entry, still) : [NOWHERE]) {
      at(this.corners.at(joined(rising, way)));
      at(this.corners.at(joined(falling, way)));
    }
    return directionOf(low, high) === 0 ? undefined : { low, high };
  }

  /**
   * Ways to move quantities that alone do not move an entry: as they move, all of them or in parts, one of the numbers it
   * is worked out of, to either side.
   */
  private waysOf(entry: Entry, still: readonly number[]): Ends[] {
    const moves = this.different(this.movesUnder(entry, still)).toSorted((one, other) => sizeOf(other) - sizeOf(one));
    const moving = still.filter((one) => moves.some((move) => move[one]));
    const whole = moves.filter((move) => sizeOf(move) === moving.length).slice(0, MOST_WAYS / 2);
    if (whole.length > 0) return whole.flatMap((move) => [move, turned(move)]);
    let ways: Ends[] = [NOWHERE];
    const left = new Set(moving);
    for (const move of moves) {
      const part = move.map((end, one): End => (end && left.delete(one) ? end : 0));
      if (sizeOf(part) > 0 && ways.length < MOST_WAYS)
        ways = ways.flatMap((way) => [joined(part, way), joined(turned(part), way)]);
    }
    return ways;
  }

  /** How quantities move the numbers that an entry is worked out of, the nearest that each moves at all. */
  private movesUnder(entry: Entry, quantities: readonly number[]): Ends[] {
    return entry.used.flatMap((used) => {
      const under = this.corners.numbersOf(looseUnder(used));
      const here = quantities.filter((one) => under.includes(one));
      if (here.length === 0) return [];
      const moves = this.movesOf(used).map((move) => move.map((end, one) => (here.includes(one) ? end : 0)));
      const still = here.filter((one) => !moves.some((move) => move[one]));
      return still.length > 0 ? [...moves, ...this.movesUnder(used, still)] : moves;
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
    const moves = numbersIn(entry.outcome).map((): End[] => []);
    for (const one of this.corners.numbersOf(looseUnder(entry))) {
      const low = numbersIn(this.corners.alone(one, -1).see(entry.node));
      const high = numbersIn(this.corners.alone(one, 1).see(entry.node));
      for (const [index, move] of moves.entries()) {
        while (move.length < one) move.push(0);
        move.push(directionOf(low[index], high[index]));
      }
    }
    return this.different(moves);
  }

  /** Each way once, whichever side it is told from. */
  private different(moves: readonly Ends[]): Ends[] {
    const known = new Set<Corner>();
    return moves.filter((move) => {
      const [one, other] = [this.corners.at(move), this.corners.at(turned(move))];
      const isNew = one !== other && !known.has(one) && !known.has(other);
      known.add(one);
      return isNew;
    });
  }
}

/** Whether a number grows or falls from one to another, or stays the same but for rounding. */
function directionOf(from = Number.NaN, to = Number.NaN): End {
  const slack = 1e-9 * Math.max(Math.abs(from), Math.abs(to));
  if (to - from > slack) return 1;
  return from - to > slack ? -1 : 0;
}

/** An end where the figure alone has a value there, else the middle. */
function possible(end: End, [low, high]: readonly [number | undefined, number | undefined]): End {
  return (end > 0 ? high : low) === undefined ? 0 : end;
}

function turn(end: End): End {
  return end === 0 ? 0 : end > 0 ? -1 : 1;
}

/** The same quantities at their other ends. */
function turned(ends: Ends): Ends {
  return ends.map(turn);
}

/** Quantities at the ends of one, else at those of the other. */
function joined(one: Ends, other: Ends): Ends {
  const length = Math.max(one.length, other.length);
  return Array.from({ length }, (_, number) => one[number] || other[number] || 0);
}

/** How many quantities are at an end. */
function sizeOf(ends: Ends): number {
  let size = 0;
  for (const end of ends) if (end) size++;
  return size;
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
