import type { Compared } from '../analysis/compared.ts';
import type { Explanation } from '../analysis/explanations.ts';
import type { Related, Repair, Situation } from '../checking/rule.ts';
import type { LoggedField } from '../sheet/log-values.ts';
import type { Path } from '../sheet/path.ts';

/** How many explanations a finding tells, and how many it offers to take over. */
const MOST_TOLD = 4;
const MOST_OFFERED = 4;

type Showing = Pick<Situation, 'showValue' | 'compare'>;

/** Where the sheet says what was read: the value itself, or the column of the log it comes from. */
export function placeOfReading({ about, reading, index }: Compared): Path {
  const isLogged = reading.logged?.lines[about.field as LoggedField] !== undefined;
  return ['measured', index, ...(isLogged ? ['log', 'columns'] : []), about.field];
}

/** By which lines of the log a value was read, as the end of a sentence. */
export function fromLog({ about, reading }: Compared): string {
  const lines = reading.logged?.lines[about.field as LoggedField];
  return lines ? ` (${lines} of the log)` : '';
}

/** What was read and what was to be read, in the unit of the reading. */
export function readAgainst({ compare }: Showing, { read, computed }: Compared): { read: string; computed: string } {
  const { value, limit } = compare(
    { value: read.value, dimension: read.dimension, unit: read.unit },
    computed?.value ?? 0,
  );
  return { read: value, computed: limit };
}

/** What a reading is explained by, the likeliest first, as sentences. */
export function explained({ showValue }: Showing, explanations: readonly Explanation[]): string {
  const told = explanations.filter(({ through }) => through === undefined).slice(0, MOST_TOLD);
  if (told.length === 0)
    return 'No single value that the figure stands on explains it: look at the gauge first, then for what the sheet does not know.';
  const sentences = told.map(({ name, value, present, dimension, also, assumed }, index) => {
    const [then, now] = [value, present].map((one) => showValue(one, dimension));
    const more = also.length > 0 ? `, which also explains the ${also.join(' and the ')}` : '';
    const lead = index === 0 ? 'Explained by' : 'Or by';
    // A size of injectors holds at their rated pressure, which stays that of the sheet.
    const whose = dimension === 'injector-flow' ? `${name} as rated:` : `${name} of`;
    return `${lead} ${whose} ${then} in place of ${assumed ? 'the usual ' : ''}${now}${more}.`;
  });
  return sentences.join(' ');
}

/** The places of the explanations in the sheet. */
export function placesOf(explanations: readonly Explanation[], { showValue }: Showing): Related[] {
  return explanations.flatMap(({ field, assumed, value, dimension, name }) =>
    field && assumed === undefined
      ? [{ at: field, message: `Explained if the ${name} is ${showValue(value, dimension)}.` }]
      : [],
  );
}

/** Each explanation that is a field, to be written as what is taken from now on. */
export function takenOver(explanations: readonly Explanation[], { about }: Compared, { showValue }: Showing): Repair[] {
  return explanations
    .flatMap(({ field, name, value, dimension }): Repair[] =>
      field
        ? [
            {
              title: `Take ${showValue(value, dimension)} as ${name}, once it is found to be so`,
              set: { [field]: showValue(value, dimension) },
              shows: about.figure,
            },
          ]
        : [],
    )
    .slice(0, MOST_OFFERED);
}

/** Whether a reading shows a mixture leaner than planned. */
export function isLean({ about, low, computed }: Compared): boolean {
  const isMixture = about.field === 'lambda' || about.field === 'air-fuel-ratio';
  return isMixture && computed !== undefined && low > (computed.high ?? computed.value);
}
