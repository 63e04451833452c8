import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineLoss, staticHead, suctionLineLoss } from '../../../server/src/engineering/lines.ts';
import {
  type FuelNetwork,
  filterLoss,
  type OperatingPoint,
  solveNetwork,
} from '../../../server/src/engineering/network.ts';
import { pumpFromTests, pumpsFlow } from '../../../server/src/engineering/pump.ts';
import { between, consumption, LITER_PER_HOUR, network, noNumbers } from './fuel-systems.ts';

const pump = pumpFromTests([
  {
    voltage: 13.5,
    points: [0, 150e3, 300e3, 450e3, 600e3].map((pressure, i) => ({
      pressure,
      flow: ([260, 245, 225, 200, 160][i] as number) * LITER_PER_HOUR,
    })),
  },
]);
const tube = { diameter: 0.0079, length: 5, roughness: 1.5e-6, elbows90: 3 };
const plain: FuelNetwork = {
  liquid: { density: 745, viscosity: 6.7e-7 },
  suction: [],
  pumps: [{ pump, voltage: 13.5, role: 'main', quantity: 1 }],
  feed: [{ ...tube, rise: 0.4 }],
  filter: { flow: 250 * LITER_PER_HOUR, loss: 10e3, law: 'linear' },
  regulator: { setting: 400e3, reference: 0, place: 'rail' },
  return: [{ ...tube, rise: -0.4 }],
};

function solve(system: FuelNetwork, litersPerHour: number): OperatingPoint {
  return solveNetwork(system, litersPerHour * LITER_PER_HOUR);
}

function lossOf(lines: FuelNetwork['feed'], system: FuelNetwork, flow: number, loss = lineLoss): number {
  return lines.reduce((sum, line) => {
    const friction = loss(line, system.liquid, flow).friction;
    return sum + friction + staticHead(system.liquid.density, line.rise ?? 0);
  }, 0);
}

describe('a fuel system', () => {
  it('returns exactly what the engine does not take', () => {
    fc.assert(
      fc.property(network, consumption, (system, taken) => {
        const point = solveNetwork(system, taken);
        expect(point.delivered).toBe(point.consumed + point.returned);
        expect(point.consumed).toBeLessThanOrEqual(taken);
        expect(point.returned).toBeGreaterThanOrEqual(0);
        if (point.regulation !== 'starved') expect(point.consumed).toBe(taken);
        if (!system.return) expect(point.returned).toBe(0);
      }),
    );
  });

  it('has pressures that add up along the way', () => {
    fc.assert(
      fc.property(network, consumption, (system, taken) => {
        const { pressures, pumpRise, delivered, consumed } = solveNetwork(system, taken);
        const { preFilter, filter } = system;
        const suction =
          lossOf(system.suction, system, delivered, suctionLineLoss) +
          (preFilter ? filterLoss(preFilter, delivered) : 0);
        expect(pressures.pumpInlet).toBeCloseTo(pressures.tank - suction, 3);
        expect(pressures.pumpOutlet - pressures.pumpInlet).toBeCloseTo(pumpRise, 1);
        const feedFlow = system.regulator.place === 'pump' ? consumed : delivered;
        expect(pressures.filterInlet - pressures.filterOutlet).toBeCloseTo(
          filter ? filterLoss(filter, feedFlow) : 0,
          3,
        );
        if (system.return || system.regulator.place === 'rail') {
          expect(pressures.pumpOutlet - pressures.filterInlet).toBeCloseTo(lossOf(system.feed, system, feedFlow), 3);
        }
      }),
    );
  });

  it('works on its pump curve', () => {
    fc.assert(
      fc.property(network, consumption, (system, taken) => {
        const point = solveNetwork(system, taken);
        const onCurve = pumpsFlow(system.pumps, point.pumpRise, true).flow;
        if (point.regulation === 'starved' || (point.consumed > 0 && !system.return)) {
          expect(onCurve).toBeGreaterThanOrEqual(point.delivered * (1 - 1e-6) - 1e-11);
        } else if (system.return) {
          expect(Math.abs(onCurve - point.delivered)).toBeLessThanOrEqual(1e-6 * onCurve + 1e-12);
        }
      }),
    );
  });

  it('holds the setting when it says so and only then', () => {
    fc.assert(
      fc.property(network, consumption, (system, taken) => {
        const point = solveNetwork(system, taken);
        const { pressures, pumpRise, regulation } = point;
        const setting = system.regulator.setting + system.regulator.reference;
        const held = system.regulator.place === 'rail' ? pressures.rail : pressures.pumpOutlet;
        if (regulation === 'holds' && system.return) expect(held).toBe(setting);
        if (regulation === 'holds' && system.regulator.place === 'rail') expect(held).toBe(setting);
        if (regulation === 'backed-up') expect(held).toBeGreaterThan(setting);
        if (regulation === 'sags') {
          expect(held).toBeLessThanOrEqual(setting + 0.01);
        }
        if (regulation === 'starved' && pumpRise > 0)
          expect(pressures.rail).toBeLessThan(Math.max(0, held - setting) + 1);
      }),
    );
  });

  it('has no figure that is not a number', () => {
    fc.assert(
      fc.property(network, consumption, (system, taken) => {
        const point = solveNetwork(system, taken);
        const { regulatorOutlet, ...others } = point.pressures;
        const figures = [...Object.values(others), point.delivered, point.consumed, point.returned, point.pumpRise];
        for (const value of figures) expect(Number.isFinite(value)).toBe(true);
        expect(regulatorOutlet === undefined).toBe(system.return === undefined);
        if (regulatorOutlet !== undefined) expect(Number.isFinite(regulatorOutlet)).toBe(true);
      }),
    );
  });

  it('delivers less through a longer feed line', () => {
    fc.assert(
      fc.property(network, consumption, between(0.1, 10), (system, taken, more) => {
        const [first, ...rest] = system.feed;
        if (!first) return;
        const longer = { ...system, feed: [{ ...first, length: first.length + more }, ...rest] };
        const [short, long] = [solveNetwork(system, taken), solveNetwork(longer, taken)];
        expect(long.delivered).toBeLessThanOrEqual(short.delivered * (1 + 1e-7) + 1e-12);
        if (long.regulation !== 'starved') {
          expect(long.pressures.rail).toBeLessThanOrEqual(short.pressures.rail + 0.1);
        }
      }),
    );
  });

  it('has no more pressure at the rail the more the engine takes', () => {
    fc.assert(
      fc.property(network, consumption, consumption, (system, one, other) => {
        const less = solveNetwork(system, Math.min(one, other));
        const more = solveNetwork(system, Math.max(one, other));
        expect(more.pressures.rail).toBeLessThanOrEqual(less.pressures.rail + 0.1);
      }),
    );
  });

  it('delivers less at a lower pump voltage', () => {
    fc.assert(
      fc.property(network, consumption, between(0.7, 1), (system, taken, share) => {
        const weak = { ...system, pumps: system.pumps.map((unit) => ({ ...unit, voltage: unit.voltage * share })) };
        const strong = solveNetwork(system, taken).delivered;
        expect(solveNetwork(weak, taken).delivered).toBeLessThanOrEqual(strong * (1 + 1e-7) + 1e-12);
      }),
    );
  });
});

describe('a fuel system, told as a story', () => {
  it('holds its setting at idle and under load, and sags when the engine takes more than the pump gives', () => {
    expect(solve(plain, 3).regulation).toBe('holds');
    expect(solve(plain, 150).pressures.rail).toBe(400e3);
    const short = solve(plain, 230);
    expect(short.regulation).toBe('sags');
    expect(short.returned).toBe(0);
    expect(short.pressures.rail).toBeLessThan(280e3);
  });

  it('starves when the engine takes more than the pump gives against nothing', () => {
    const point = solve(plain, 400);
    expect(point.regulation).toBe('starved');
    expect(point.consumed / LITER_PER_HOUR).toBeLessThan(260);
    expect(point.consumed / LITER_PER_HOUR).toBeGreaterThan(240);
  });

  it('cannot hold its setting through a return line that is too narrow', () => {
    const narrow = { ...plain, return: [{ ...tube, diameter: 0.003 }] };
    const point = solve(narrow, 0);
    expect(point.regulation).toBe('backed-up');
    expect(point.pressures.rail).toBeCloseTo((point.pressures.regulatorOutlet ?? 0) + 10e3, 6);
    expect(solveNetwork(plain, 0).pressures.regulatorOutlet).toBeLessThan(20e3);
  });

  it('pushes only what the engine takes when it has no return line', () => {
    const { return: _, ...deadHead } = plain;
    const point = solve(deadHead, 100);
    expect(point.delivered).toBe(100 * LITER_PER_HOUR);
    expect(point.pressures.rail).toBe(400e3);
    expect(point.pressures.filterOutlet).toBeGreaterThan(600e3);
    expect(point.extrapolated).toBe(true);
    expect(solveNetwork(deadHead, 0).pressures.regulatorOutlet).toBeUndefined();
  });

  it('loses the feed line at the rail when the regulator sits at the pump', () => {
    const atPump = { ...plain, regulator: { ...plain.regulator, place: 'pump' as const } };
    const point = solve(atPump, 100);
    expect(point.pressures.pumpOutlet).toBe(400e3);
    expect(point.pressures.rail).toBeLessThan(400e3 - 4e3);
  });

  it('follows boost when the regulator refers to the manifold', () => {
    const boosted = { ...plain, regulator: { ...plain.regulator, reference: 80e3 } };
    expect(solve(boosted, 100).pressures.rail).toBe(480e3);
    expect(solve(boosted, 100).delivered).toBeLessThan(solve(plain, 100).delivered);
  });

  it('gets more from two pumps, nothing from a spare, and a staged one only when it runs', () => {
    const main = plain.pumps[0] as (typeof plain.pumps)[number];
    const withSecond = (role: 'main' | 'staged' | 'spare') => ({ ...plain, pumps: [main, { ...main, role }] });
    const alone = solve(plain, 100).delivered;
    expect(solve(withSecond('spare'), 100).delivered).toBe(alone);
    expect(solve(withSecond('main'), 100).delivered).toBeGreaterThan(1.8 * alone);
    expect(solveNetwork(withSecond('staged'), 1e-5, false).delivered).toBeCloseTo(alone, 9);
    expect(solveNetwork(withSecond('staged'), 1e-5, true).delivered).toBeGreaterThan(1.8 * alone);
  });

  it('starves when the feed line behind a regulator at the pump lets too little through', () => {
    const thin = {
      ...plain,
      feed: [{ ...tube, diameter: 0.002 }],
      regulator: { ...plain.regulator, place: 'pump' as const },
    };
    const point = solve(thin, 200);
    expect(point.regulation).toBe('starved');
    expect(point.consumed / LITER_PER_HOUR).toBeLessThan(60);
    expect(point.pressures.rail).toBeCloseTo(0, 2);
    expect(point.returned).toBeGreaterThan(0);
  });

  it('refuses what no fuel system can be', () => {
    const main = plain.pumps[0] as (typeof plain.pumps)[number];
    for (const value of [...noNumbers, -1]) {
      expect(() => solveNetwork(plain, value)).toThrow('The fuel consumption');
      expect(() => solveNetwork({ ...plain, regulator: { ...plain.regulator, setting: value } }, 0)).toThrow('setting');
      expect(() => filterLoss({ flow: value, loss: 1, law: 'linear' }, 1e-5)).toThrow("The filter's rated flow");
      expect(() => filterLoss({ flow: 1e-5, loss: value, law: 'linear' }, 1e-5)).toThrow("The filter's rated loss");
    }
    expect(() => solveNetwork({ ...plain, regulator: { ...plain.regulator, reference: -500e3 } }, 0)).toThrow(
      'with its reference',
    );
    expect(() => solveNetwork({ ...plain, pumps: [] }, 0)).toThrow('No pump runs');
    expect(() => solveNetwork({ ...plain, pumps: [{ ...main, voltage: 0 }] }, 0)).toThrow('No pump runs');
    expect(() => solveNetwork({ ...plain, tankPressure: Number.NaN }, 0)).toThrow('The pressure in the tank');
  });
});
