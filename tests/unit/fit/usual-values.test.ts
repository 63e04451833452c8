import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { judge } from '../../../server/src/checking/judge.ts';
import { completed } from '../../../server/src/fit/completed.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';

const short = (altitude: string, engine: string, fuel: string, stages: readonly string[]) => `format: 1
site: { altitude: ${altitude} }
engine: { ${engine} }
fuel: { grade: ${fuel} }
stages:
${stages.map((stage) => `  - { ${stage} }`).join('\n')}
`;

const airs = [
  { fuel: 'gasoline-e10', altitude: '0 ft' },
  { fuel: 'gasoline', altitude: '10000 ft' },
  { fuel: 'e85', altitude: '10000 ft' },
  { fuel: 'methanol', altitude: '3500 ft' },
];
const plans: [name: string, engine: string, stages: string[]][] = [
  ['a small three', 'cylinders: 3, displacement: 1.05 L', ['name: now, power: 45 hp, induction: natural']],
  ['a four', 'cylinders: 4, displacement: 1.95 L', ['name: now, power: 160 hp, induction: natural']],
  ['a mild eight', 'cylinders: 8, displacement: 6.05 L', ['name: now, power: 330 hp, induction: natural']],
  ['a large eight', 'cylinders: 8, displacement: 8.15 L', ['name: now, power: 550 hp, induction: natural']],
  [
    'a six with a turbocharger later',
    'cylinders: 6, displacement: 3.35 L',
    ['name: now, power: 170 hp, induction: natural', 'name: later, power: 260 hp, induction: turbo'],
  ],
  [
    'an eight with a blower later',
    'cylinders: 8, displacement: 6.05 L',
    ['name: now, power: 330 hp, induction: natural', 'name: later, induction: roots'],
  ],
  [
    'an eight with nitrous later',
    'cylinders: 8, displacement: 5.25 L',
    ['name: now, power: 330 hp, induction: natural', 'name: later, power: 480 hp, nitrous: { power: 150 hp }'],
  ],
];

const cases = plans.flatMap(([name, engine, stages]) => airs.map((air) => ({ name, engine, stages, ...air })));

/** Fitted or not: nobody may take such a thing for granted. */
const attested = ['electrical/relay-missing', 'electrical/impact-cutoff-missing', 'electrical/stall-cutoff-missing'];

describe('what is taken as usual does', () => {
  it.each(cases)('$name, $fuel, $altitude', ({ altitude, engine, fuel, stages }) => {
    const checked = checkText(short(altitude, engine, fuel, stages), noHouse);
    const { values, plan, assumed } = completed(checked);
    const isAssumed = (field: string) => assumed.some(({ place }) => `${place.join('.')}.`.startsWith(`${field}.`));
    const told = judge(values, plan, noHouse).findings.filter(
      ({ rule, severity, path }) => severity !== 'information' && isAssumed(path.join('.')) && !attested.includes(rule),
    );
    expect(told.map(({ rule, message }) => `${rule}: ${message}`)).toEqual([]);
  });
});
