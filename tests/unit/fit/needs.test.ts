import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pumpCircuit } from '../../../server/src/analysis/circuits.ts';
import { injectorPressure, requiredStaticFlow } from '../../../server/src/analysis/full-load-injection.ts';
import type { FigureNode } from '../../../server/src/analysis/node.ts';
import { idleRailPressure, requiredDelivery } from '../../../server/src/analysis/supply.ts';
import { largestStaticFlow, leastFeedBore, leastThrottleArea } from '../../../server/src/analysis/windows.ts';
import { checkText } from '../../../server/src/checking/checked.ts';
import { PSI } from '../../../server/src/engineering/constants.ts';
import { completed } from '../../../server/src/fit/completed.ts';
import { type Need, type Needs, needsOf } from '../../../server/src/fit/needs.ts';
import { brokenBy, Trials } from '../../../server/src/fit/trials.ts';
import { rules } from '../../../server/src/generated/rules.ts';
import { needsPage } from '../../../server/src/report/needs-page.ts';
import { plainText } from '../../../server/src/report/plain-text.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import type { FieldPath } from '../../../server/src/sheet/path.ts';
import { inOneGo } from '../../../server/src/text/steps.ts';
import { isQuantityValue } from '../../../server/src/units/quantity.ts';

const PHONE = `format: 1
engine: { cylinders: 8, displacement: 6.05 L }
fuel: { grade: gasoline-e10 }
site: { altitude: 1200 ft }
stages:
  - { name: now, power: 330 hp, induction: natural }
  - { name: in two years, induction: roots }
`;

const INJECTORS = 'throttle-body.injectors.static-flow';

function needs(text: string, ...fields: FieldPath[]): Needs {
  const wanted = fields.length ? (field: FieldPath) => fields.includes(field) : undefined;
  return inOneGo(needsOf(checkText(text, noHouse), rules, wanted));
}

function windowIn({ needs: [need] }: Needs) {
  if (need?.asks !== 'number') throw new Error('no window');
  return need.window;
}

function highest(text: string, figure: FigureNode): number {
  return Math.max(...completed(checkText(text, noHouse)).plan.map((stage) => stage.estimate(figure)?.value ?? 0));
}

describe('what a short sheet needs', () => {
  const all = needs(PHONE);
  const page = plainText(needsPage(all, 'us'));

  it.each([
    'Injectors',
    'Fuel pump',
    'Lines',
    'Regulator',
    'Pump circuit',
    'Ignition',
    'Throttle body',
    'Sensors',
    'Tank',
    'Vacuum reference',
  ])('says what it asks of: %s', (part) => {
    expect(all.needs.some((need: Need) => need.part === part)).toBe(true);
  });

  it('names the stage and the reason of each end', () => {
    expect(page).toMatch(/static flow of each of 4 at 43\.5 psi: [\d.]+ lb\/h to [\d.]+ lb\/h/);
    expect(page).toContain('Less: injector duty cycle over the limit, in "in two years".');
    expect(page).toContain('More: injectors too big to idle.');
  });

  it('counts what it assumes, each with its reason', () => {
    expect(page).toContain(`Stands on ${all.assumed.length} assumed values`);
    for (const { because } of all.assumed) expect(because).not.toBe('');
  });

  it('assumes nothing that the sheet says', () => {
    const said = PHONE.replace('8,', '8, redline: 5400 rpm,').concat('electrical: { pump-circuit: { length: 4 m } }\n');
    const fields = needs(said, INJECTORS).assumed.map(({ place }) => place.join('.'));
    expect(fields).not.toContain('engine.redline');
    expect(fields).not.toContain('electrical.pump-circuit.length');
    expect(fields).toContain('engine.peak-power-speed');
  });
});

/** Found by trial against the rules, and by the formula turned round: two ways that share no line. */
describe('an end found by trial is where the formula puts it', () => {
  it('injectors at the duty limit', () => {
    const pressure = highest(PHONE, injectorPressure);
    const formula = highest(PHONE, requiredStaticFlow) * Math.sqrt(43.5 / (pressure / 6894.757));
    expect((windowIn(needs(PHONE, INJECTORS)).low?.value ?? 0) / formula).toBeCloseTo(1, 3);
  });

  it('injectors at the shortest pulse they repeat at idle', () => {
    const built = completed(checkText(PHONE, noHouse));
    const ratio = (43.5 * PSI) / (built.plan[0]?.estimate(idleRailPressure)?.value ?? 0);
    const formula = Math.min(...built.plan.map((stage) => stage.estimate(largestStaticFlow)?.value ?? 0));
    expect((windowIn(needs(PHONE, INJECTORS)).high?.value ?? 0) / (formula * Math.sqrt(ratio))).toBeCloseTo(1, 3);
  });

  it('bores at the largest pressure drop, on the day it names', () => {
    const field = 'throttle-body.bores.diameter';
    const { low } = windowIn(needs(PHONE, field));
    const formula = Math.sqrt(highest(PHONE, leastThrottleArea) / 0.75 / (Math.PI / 4) / 4);
    expect((low?.value ?? 0) / formula).toBeCloseTo(1, 3);
    expect(low?.broken.map(({ day }) => day)).toEqual(['the coldest, lowest day']);
  });

  it('feed line at the largest velocity, but for what a thinner one holds back', () => {
    const field = 'fuel-system.feed.inside-diameter';
    const { low } = windowIn(needs(PHONE, field));
    expect(low?.broken.map(({ rule }) => rule)).toContain('fuel-supply/feed-velocity');
    const share = (low?.value ?? 0) / highest(PHONE, leastFeedBore);
    expect(share).toBeGreaterThan(0.9);
    expect(share).toBeLessThanOrEqual(1.001);
  });

  it('wire at the voltage drop allowed', () => {
    const field = 'electrical.pump-circuit.wire';
    expect((windowIn(needs(PHONE, field)).low?.value ?? 0) / highest(PHONE, pumpCircuit.wireNeeded)).toBeCloseTo(1, 0);
  });

  it('fuse at four fifths of its rating', () => {
    const field = 'electrical.pump-circuit.fuse';
    const formula = highest(PHONE, pumpCircuit.amps) / 0.8;
    expect((windowIn(needs(PHONE, field)).low?.value ?? 0) / formula).toBeCloseTo(1, 3);
  });

  it('pump at the delivery it must have, but for its volts', () => {
    const field = 'fuel-system.pump.flow-at';
    const share = (windowIn(needs(PHONE, field)).low?.value ?? 0) / highest(PHONE, requiredDelivery);
    expect(share).toBeGreaterThan(1);
    expect(share).toBeLessThan(1.15);
  });
});

const shortSheet = fc
  .record({
    cylinders: fc.constantFrom(2, 3, 4, 6, 8, 10),
    litersEach: fc.integer({ min: 20, max: 100 }),
    pressure: fc.integer({ min: 90, max: 170 }),
    induction: fc.constantFrom('natural', 'roots', 'turbo', 'centrifugal'),
    fuel: fc.constantFrom('gasoline', 'gasoline-e10', 'e85', 'methanol'),
  })
  .map(({ cylinders, litersEach, pressure, induction, fuel }) => {
    const liters = (cylinders * litersEach) / 100;
    const power = Math.round((pressure / 140) * liters * 52);
    const sheet = (hp: number) => `format: 1
engine: { cylinders: ${cylinders}, displacement: ${liters} L }
fuel: { grade: ${fuel} }
stages:
  - { name: now, power: ${hp} hp, induction: natural }
${induction === 'natural' ? '' : `  - { name: later, induction: ${induction} }\n`}`;
    return { power, sheet };
  });

describe('any short sheet', { timeout: 120_000 }, () => {
  it('needs injectors of a size, larger for more power, and no number is none', () => {
    fc.assert(
      fc.property(shortSheet, ({ power, sheet }) => {
        const [now, more] = [needs(sheet(power), INJECTORS), needs(sheet(Math.round(power * 1.15)), INJECTORS)];
        const [low, larger] = [windowIn(now).low, windowIn(more).low];
        expect(low).toBeDefined();
        expect(larger?.value ?? 0).toBeGreaterThan((low?.value ?? 0) * 1.05);
        expect(plainText(needsPage(now, 'us'))).not.toMatch(/NaN|undefined|null|Infinity/);
        expect(now.assumed.length).toBeGreaterThan(5);
      }),
      { seed: 5, numRuns: 12 },
    );
  });

  it('breaks no rule within a window, and one outside it', () => {
    fc.assert(
      fc.property(shortSheet, fc.double({ min: 0.01, max: 0.99, noNaN: true }), ({ power, sheet }, share) => {
        const text = sheet(power);
        const { low, high } = windowIn(needs(text, INJECTORS));
        if (!low || !high || low.value > high.value) return;
        const trials = new Trials(completed(checkText(text, noHouse)), rules);
        const broken = (value: number) =>
          brokenBy(trials, INJECTORS, `${value * (3600 / 0.45359237)} lb/h`)?.map(({ rule }) => rule) ?? [];
        const ends = [...low.broken, ...high.broken].map(({ rule }) => rule);
        const within = broken(low.value * (high.value / low.value) ** share);
        expect(within.filter((rule) => ends.includes(rule))).toEqual([]);
        expect(broken(low.value * 0.995)).toContain(low.broken[0]?.rule);
        expect(broken(high.value * 1.005)).toContain(high.broken[0]?.rule);
      }),
      { seed: 8, numRuns: 12 },
    );
  });

  it('takes what a sheet without findings has in all its stages', () => {
    const sound = readdirSync('samples')
      .filter((file) => file.endsWith('.build.yaml'))
      .map((file) => readFileSync(`samples/${file}`, 'utf8'))
      .filter((text) => text.includes('# findings: none') && !text.includes('changes:'));
    expect(sound.length).toBeGreaterThan(3);
    for (const text of sound)
      for (const need of needs(text).needs) {
        if (need.asks !== 'number' || need.isAssumed || !isQuantityValue(need.present)) continue;
        const { low, high } = need.window;
        expect(need.present.value, need.field).toBeGreaterThanOrEqual((low?.value ?? 0) * 0.9995);
        expect(need.present.value, need.field).toBeLessThanOrEqual((high?.value ?? Infinity) * 1.0005);
      }
  });

  it('says what collides where no size does', () => {
    const text = PHONE.replace('330 hp', '90 hp').replace('induction: roots', 'induction: turbo, power: 1500 hp');
    const page = plainText(needsPage(needs(text, INJECTORS), 'us'));
    expect(page).toContain('none does: it would have to be at least');
    expect(page).toContain('What would open it:');
  });
});
