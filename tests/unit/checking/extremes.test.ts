import { describe, expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { isKnown } from '../../../server/src/analysis/figure.ts';
import { figures } from '../../../server/src/analysis/figures.ts';
import { type Checked, checkText } from '../../../server/src/checking/checked.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { schemaAt } from '../../../server/src/sheet/schema.ts';
import { soundText } from '../../variants/variant.ts';

type Place = readonly (string | number)[];

/** An in-tank pump in the desert, an external pump, neat methanol, E85. */
const sheets = ['dune-runner', 'foundry-six-metric', 'quarter-mile-methanol', 'cane-field-wagon'];

/** Weather, height and what a fuel may have: all of it happens. */
const WEATHER: readonly Place[] = [
  ['site', 'altitude'],
  ['site', 'lowest-altitude'],
  ['site', 'highest-altitude'],
  ['site', 'coldest'],
  ['site', 'hottest'],
  ['site', 'hottest-fuel'],
  ['fuel', 'vapor-pressure'],
  ['fuel-system', 'tank', 'cap-pressure'],
];

/** Places of a sheet whose values have ends. */
function places(value: unknown, place: Place = []): Place[] {
  if (typeof value !== 'object' || value === null) return schemaAt([...place])?.allowed ? [place] : [];
  return Object.entries(value).flatMap(([step, inner]) =>
    places(inner, [...place, Array.isArray(value) ? Number(step) : step]),
  );
}

function checkedWith(name: string, place: Place, text: string): Checked {
  const document = parseDocument(soundText(name));
  document.setIn(place, text);
  return checkText(document.toString({ lineWidth: 0 }), noHouse);
}

function* ends(name: string, of: readonly Place[]): Generator<{ what: string; checked: Checked }> {
  for (const place of of) {
    const { from, to } = schemaAt([...place])?.allowed ?? {};
    for (const text of [from, to]) {
      if (text === undefined) continue;
      yield { what: `${place.join('.')}: ${text}`, checked: checkedWith(name, place, text) };
    }
  }
}

describe.each(sheets)('the ends of what may be written in %s', (name) => {
  it('leave no figure impossible for any weather, height or volatility', () => {
    const impossible = [...ends(name, WEATHER)].flatMap(({ what, checked }) =>
      checked.plan.flatMap((stage) =>
        figures.flatMap((node) => {
          const outcome = stage.see(node);
          if (isKnown(outcome) || !outcome.impossible) return [];
          return [`${node.id} with ${what}: ${outcome.impossible}`];
        }),
      ),
    );
    // Fuel of 1 psi boils hotter than vapor pressures are known for, and then nothing boils.
    expect(impossible.filter((one) => !one.startsWith('boiling-temperature with fuel.vapor-pressure: 1 psi'))).toEqual(
      [],
    );
  });

  it('silence no error or warning without a word', { timeout: 120_000 }, () => {
    const sound = new Set(
      checkText(soundText(name), noHouse).findings.map(({ rule, path }) => `${rule} ${path.join('.')}`),
    );
    const silent: string[] = [];
    for (const { what, checked } of ends(name, places(parseDocument(soundText(name)).toJS()))) {
      const off = checked.open.filter(
        ({ impossible, severity }) => impossible.length > 0 && /error|warning/.test(severity),
      );
      const isTold = checked.findings.some(({ rule, path }) => !sound.has(`${rule} ${path.join('.')}`));
      if (off.length > 0 && !isTold) silent.push(`${what} takes ${off.map(({ rule }) => rule).join(', ')} away`);
    }
    expect(silent).toEqual([]);
  });
});
