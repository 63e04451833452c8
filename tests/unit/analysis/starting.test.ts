import { describe, expect, it } from 'vitest';
import { isKnown } from '../../../server/src/analysis/figure.ts';
import { coldStart, type StartingPoint, startingMap } from '../../../server/src/analysis/starting.ts';
import { startingCsv } from '../../../server/src/report/starting-csv.ts';
import { samples, stagesOf } from './sheets.ts';

const engine = `displacement: 5.7 L, compression-ratio: 9, idle: 1000 rpm, peak-power-speed: 5000 rpm, redline: 5500 rpm,
  idle-manifold-pressure: 40 kPa, volumetric-efficiency: 85 %, cylinders: 8`;

function mapOf(stage: string, rest = '', of = engine): readonly StartingPoint[] {
  const [first] = stagesOf(`format: 1\nengine: { ${of} }\nstages:\n  - { ${stage} }\n${rest}`);
  const outcome = first?.see(startingMap);
  if (!outcome || !isKnown(outcome)) throw new Error(JSON.stringify(outcome));
  return outcome.value;
}

function at(map: readonly StartingPoint[], rpm: number, kilopascal: number): StartingPoint {
  const found = map.find(
    ({ speed, pressure }) => Math.abs(speed * 60 - rpm) < 1 && Math.abs(pressure / 1e3 - kilopascal) < 0.1,
  );
  if (!found) throw new Error(`${rpm} rpm, ${kilopascal} kPa is not in the map`);
  return found;
}

describe('the map to start tuning from', () => {
  const map = mapOf('power: 300 hp');

  /** Exhaust at 1.1 of the air, 9 to 1: 9 / 8 - (1.1 + 0.4) / (1.4 * 8) = 0.99107 of 85 %. */
  it('has the efficiency of peak power at full load by hand', () => {
    expect(at(map, 5000, 101.325).efficiency).toBeCloseTo(0.85 * 0.99107, 4);
  });

  it('goes through the idle that is known', () => {
    expect(at(map, 1000, 40).efficiency).toBeCloseTo(0.5, 6);
  });

  /** The usual torque curve has 1.12 times the torque at 0.65 of peak-power speed: 3,250 rpm, near 3,000 and 3,500. */
  it('breathes best where the torque is', () => {
    const full = map.filter(({ pressure }) => Math.abs(pressure - 101325) < 1);
    const best = full.reduce((one, other) => (other.efficiency > one.efficiency ? other : one));
    expect([3000, 3500]).toContain(Math.round(best.speed * 60));
    expect(best.efficiency / at(map, 5000, 101.325).efficiency).toBeGreaterThan(1.1);
    expect(best.efficiency / at(map, 5000, 101.325).efficiency).toBeLessThanOrEqual(1.1201);
  });

  it('is at lambda 1 while cruising and rich at full load', () => {
    expect(at(map, 3000, 60).lambda).toBe(1);
    expect(at(map, 3000, 101.325).lambda).toBeLessThan(0.92);
  });

  it('takes spark out for boost and nitrous, at full load only', () => {
    const octane = 'fuel: { grade: gasoline, octane: 93 }';
    const boosted = mapOf('power: 400 hp, induction: turbo, boost: 8 psi', octane);
    const both = mapOf('power: 400 hp, induction: turbo, boost: 8 psi, nitrous: { power: 100 hp, kind: wet }', octane);
    const highest = 101.325 + 8 * 6.894757;
    expect(at(boosted, 4500, highest).spark).toBeLessThan(at(map, 4500, 101.325).spark);
    expect(at(both, 4500, highest).spark).toBeLessThan(at(boosted, 4500, highest).spark);
    expect(at(both, 4500, 60).spark).toBe(at(boosted, 4500, 60).spark);
  });

  /** 10.4 to 1 with 9 psi on 91 octane: the limit at full load is far below what boost alone takes out. */
  it('comes down to the knock limit without a leap as the load rises', () => {
    const tight = mapOf(
      'power: 560 hp, induction: roots, boost: 9 psi',
      'fuel: { grade: gasoline, octane: 91 }',
      engine.replace('compression-ratio: 9,', 'compression-ratio: 10.4,'),
    );
    const here = tight.filter(({ speed }) => Math.abs(speed * 60 - 3000) < 1);
    const sparks = here.map(({ spark }) => spark);
    expect(sparks.at(-1)).toBeLessThan(15);
    for (const [index, spark] of sparks.slice(1).entries()) {
      expect(spark).toBeLessThanOrEqual(sparks[index] as number);
      expect((sparks[index] as number) - spark).toBeLessThan(5);
    }
    for (const { spark, limited } of here) expect(spark).toBeLessThanOrEqual(limited as number);
  });

  it('marks speeds the torque curve is not meant for', () => {
    expect(map.some(({ outside }) => outside)).toBe(false);
    const quick = mapOf('power: 300 hp', '', engine.replace('5000 rpm', '5400 rpm'));
    expect(quick.filter(({ outside }) => outside).map(({ speed }) => Math.round(speed * 60))).toEqual(
      quick.filter(({ speed }) => speed * 60 < 0.2 * 5400).map(() => 1000),
    );
    expect(quick.some(({ outside }) => outside)).toBe(true);
  });

  it('is finite and positive for every sample that gives it', () => {
    let maps = 0;
    for (const [, text] of samples.filter(([name]) => !name.startsWith('night-shift'))) {
      for (const stage of stagesOf(text)) {
        const outcome = stage.see(startingMap);
        if (!isKnown(outcome)) continue;
        maps++;
        for (const { efficiency, lambda, spark } of outcome.value) {
          expect(efficiency).toBeGreaterThanOrEqual(0);
          expect(lambda).toBeGreaterThan(0.5);
          expect(Math.abs(spark)).toBeLessThan(60);
        }
      }
    }
    expect(maps).toBeGreaterThan(8);
  });

  it('is written a line a point, each saying that it is no finished tune', () => {
    const lines = startingCsv(map).trimEnd().split('\r\n');
    expect(lines).toHaveLength(map.length + 1);
    expect(lines.slice(1).every((line) => line.endsWith('no finished tune'))).toBe(true);
    expect(lines.every((line) => line.split(',').length === 6)).toBe(true);
  });
});

describe('starting and warming up', () => {
  it('takes more fuel the colder it is, and more yet of alcohol', () => {
    const cold = (grade: string) => {
      const [stage] = stagesOf(`format: 1
engine: { ${engine} }
fuel: { grade: ${grade} }
stages:
  - { power: 300 hp }
throttle-body: { injectors: { quantity: 4, static-flow: 70 lb/h, rated-pressure: 43.5 psi, dead-time: 0.9 ms, firing: twice-per-cycle } }
fuel-system: { regulator: { pressure: 43.5 psi } }
electrical: { battery: { placement: engine-bay }, computer-ground: battery }
`);
      const outcome = stage?.see(coldStart);
      if (!outcome || !isKnown(outcome)) throw new Error(JSON.stringify(outcome));
      return outcome.value;
    };
    const [gasoline, ethanol] = [cold('gasoline'), cold('ethanol')];
    for (const [index, row] of gasoline.entries()) {
      const next = gasoline[index + 1];
      if (next) expect(row.mass).toBeGreaterThan(next.mass);
      expect(ethanol[index]?.fired).toBeGreaterThan(row.fired);
      expect(row.pulse).toBeGreaterThan(0.9e-3);
    }
  });
});
