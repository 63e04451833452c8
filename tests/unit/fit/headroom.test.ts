import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { idleFuel } from '../../../server/src/analysis/idle.ts';
import { powerCoveredHigh } from '../../../server/src/analysis/idle-injection.ts';
import { powerFed } from '../../../server/src/analysis/supply.ts';
import { checkText } from '../../../server/src/checking/checked.ts';
import { headroomOf } from '../../../server/src/fit/headroom.ts';
import { rules } from '../../../server/src/generated/rules.ts';
import { headroomPage } from '../../../server/src/report/headroom-page.ts';
import { plainText } from '../../../server/src/report/plain-text.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { inOneGo } from '../../../server/src/text/steps.ts';

const WAGON = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');

function ladders(text: string) {
  const checked = checkText(text, noHouse);
  return { plan: checked.plan, ladders: inOneGo(headroomOf(checked, rules)) };
}

function rung(text: string, rule: string, stage = 0): number {
  return ladders(text).ladders[stage]?.rungs.find(({ broken }) => broken.rule === rule)?.power ?? 0;
}

/** Found by climbing the rules, and by the formula turned round. */
describe('a rung of the ladder is where the formula puts it', () => {
  const { plan, ladders: found } = ladders(WAGON);

  it.each([0, 1])('the pump, in stage %d', (index) => {
    const rungs = found[index]?.rungs ?? [];
    const pump = rungs.find(({ broken }) => broken.rule === 'fuel-supply/pump-flow-short');
    expect((pump?.power ?? 0) / (plan[index]?.estimate(powerFed)?.value ?? 1)).toBeCloseTo(1, 2);
  });

  it.each([0, 1])('the injectors, in stage %d', (index) => {
    const rungs = found[index]?.rungs ?? [];
    const injectors = rungs.find(({ broken }) => broken.rule === 'throttle-body/duty');
    expect((injectors?.power ?? 0) / (plan[index]?.estimate(powerCoveredHigh)?.value ?? 1)).toBeCloseTo(1, 2);
  });
});

describe('the ladder', () => {
  it('stands in order, above the claim', () => {
    for (const { power, rungs } of ladders(WAGON).ladders) {
      const powers = rungs.map((one) => one.power);
      expect(powers).toEqual(powers.toSorted((one, other) => one - other));
      expect(Math.min(...powers)).toBeGreaterThan(power);
    }
  });

  it('goes higher with larger injectors, and leaves the other rungs where they are', () => {
    const larger = WAGON.replace('static-flow: 72 lb/h', 'static-flow: 80 lb/h');
    expect(rung(larger, 'throttle-body/duty')).toBeGreaterThan(rung(WAGON, 'throttle-body/duty') * 1.05);
    expect(rung(larger, 'fuel-supply/pump-flow-short')).toBeCloseTo(rung(WAGON, 'fuel-supply/pump-flow-short'), -2);
  });

  it('tells the bad end of a tolerance apart', () => {
    const loose = WAGON.replace('static-flow: 72 lb/h', 'static-flow: 72 lb/h +/- 4 %');
    const [first] = ladders(loose).ladders;
    const duty = first?.rungs.find(({ broken }) => broken.rule === 'throttle-body/duty');
    expect(duty?.atBadEnd).toBeLessThan(duty?.power ?? 0);
  });

  it('tells what is broken already, and has no rung for a part that is not there', () => {
    const small = WAGON.replace('static-flow: 72 lb/h', 'static-flow: 30 lb/h');
    expect(ladders(small).ladders[1]?.already.map(({ rule }) => rule)).toContain('throttle-body/duty');
    expect(rung(WAGON.replace(/ {2}pump: \{.*\n/, ''), 'fuel-supply/pump-flow-short')).toBe(0);
  });

  it('calls nothing good that it cannot check', () => {
    const short = 'format: 1\nengine: { cylinders: 8, displacement: 6.05 L }\nstages: [{ name: now, power: 330 hp }]\n';
    const [now] = ladders(short).ladders;
    expect(now?.open.map(({ rule }) => rule)).toEqual(
      expect.arrayContaining(['throttle-body/duty', 'fuel-supply/pump-flow-short']),
    );
    const page = plainText(headroomPage(now ? [now] : [], 'us'));
    expect(page).not.toContain('good');
    expect(page).toMatch(/not checked: (.+; ){5}\d+ more\./);
    expect(page).toContain('Not known yet:');
  });

  const idle = (rule: string) => rule === 'throttle-body/idle-pulse-short';
  const sheets = readdirSync('samples').filter((name) => name.endsWith('.build.yaml'));

  it.each(sheets)('reaches down to the claim of %s or below it just where the idle finds nothing wrong', (name) => {
    const checked = checkText(readFileSync(`samples/${name}`, 'utf8'), noHouse);
    const short = checked.findings.filter(
      ({ rule, message }) => idle(rule) && !message.includes('only at the bad end'),
    );
    for (const { stage, power, downTo } of inOneGo(headroomOf(checked, rules))) {
      const index = checked.plan.findIndex(({ name }) => name === stage);
      if (downTo !== undefined) expect(downTo > power).toBe(short.some(({ stages }) => stages.includes(index)));
    }
  });

  /**
   * By hand: 5.85 L at 900 rpm breathe 5.85e-3 * 7.5 * 0.5 m3/s of 52000 / (287.05 * 313.15) kg/m3, 0.01269 kg/s of air, and
   * at 14.08 to 1 0.901 g/s of fuel. Eight injectors of 140 lb/h (17.64 g/s) at 43.5 psi give at 54 psi 1.114 times that; open
   * for 1.3 - 0.9 ms of each turn of 66.7 ms they give 0.943 g/s. 395 hp * 0.943 / 0.901 = 413 hp.
   */
  it('tells a claim that the injectors are too big for', () => {
    const { ladders: found, plan } = ladders(readFileSync('samples/twin-chimney.build.yaml', 'utf8'));
    const [now] = found;
    const fuel = plan[0]?.estimate(idleFuel)?.value ?? 0;
    expect(fuel).toBeCloseTo(0.000901, 5);
    expect((now?.downTo ?? 0) / 745.7).toBeCloseTo(413, -1);
    const page = plainText(headroomPage(found, 'us'));
    expect(page).toContain('395 hp claimed: too little for its injectors to idle, else good to');
    expect(page).toMatch(/these injectors suit 41\d hp and more/);
  });

  it('raises the boost of a blown stage', () => {
    const blown = readFileSync('samples/millrace-stroker.build.yaml', 'utf8');
    const [, blower] = ladders(blown).ladders;
    expect(blower?.rungs.map(({ broken }) => broken.rule)).toContain('vacuum/sensor-range');
  });
});
