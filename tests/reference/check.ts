import firstSet from './values/first-set.json' with { type: 'json' };

/** One comparison of a figure of ours with a value from outside the project. */
export type Check = {
  id: string;
  /** The section of the engineering notes, 1 to 22. */
  section: number;
  topic: string;
  /** What is computed, with its inputs, in one line. */
  what: string;
  got: () => number;
  expected: number;
  unit: string;
  tolerance: { relative?: number; absolute?: number };
  source: string;
};

type Row = {
  id: string;
  topic: string;
  inputs: Record<string, unknown>;
  expected: { value: number; unit: string };
  tolerance_rel: number;
  tolerance_abs?: number;
  source: string;
};

const rows = new Map((firstSet as Row[]).map((row) => [row.id, row]));

/** The row of the first set of outside checks; throws when there is none of that id. */
export function firstSetRow(id: string): Row {
  const row = rows.get(id);
  if (!row) throw new Error(`The first set of outside checks has no row ${id}.`);
  return row;
}

/** All ids of the first set of outside checks. */
export const firstSetIds = [...rows.keys()];

/** A check against row `id` of the first set; `got` must be in that row's unit. */
export function fromFirstSet(id: string, section: number, topic: string, got: () => number): Check {
  const row = firstSetRow(id);
  return {
    id,
    section,
    topic,
    what: `${row.topic}: ${describeInputs(row.inputs)}`,
    got,
    expected: row.expected.value,
    unit: row.expected.unit,
    tolerance: row.tolerance_abs === undefined ? { relative: row.tolerance_rel } : { absolute: row.tolerance_abs },
    source: row.source,
  };
}

/** Makes checks of our own choice for one section and topic; a tolerance that is a number is relative. */
export function ownCheck(section: number, topic: string) {
  return (
    id: string,
    what: string,
    got: () => number,
    expected: number,
    unit: string,
    tolerance: number | Check['tolerance'],
    source: string,
  ): Check => ({
    id,
    section,
    topic,
    what,
    got,
    expected,
    unit,
    tolerance: typeof tolerance === 'number' ? { relative: tolerance } : tolerance,
    source,
  });
}

/** The largest difference the check accepts, in its own unit. */
export function allowedDifference(check: Check): number {
  return Math.max(check.tolerance.absolute ?? 0, (check.tolerance.relative ?? 0) * Math.abs(check.expected));
}

/** True when the figure of ours is within the check's tolerance. */
export function passes(check: Check, got = check.got()): boolean {
  return Math.abs(got - check.expected) <= allowedDifference(check);
}

function describeInputs(inputs: Record<string, unknown>): string {
  return Object.entries(inputs)
    .map(([name, value]) => `${name} = ${Array.isArray(value) ? value.join(', ') : value}`)
    .join('; ');
}
