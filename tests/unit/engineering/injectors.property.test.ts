import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deadTimeEstimate, deadTimeFromTable } from '../../../server/src/engineering/dead-time.ts';
import { idleAirFlow, smallestFlow } from '../../../server/src/engineering/idle.ts';
import * as injectors from '../../../server/src/engineering/injectors.ts';
import { rising, size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

const place = fc.constantFrom<injectors.DischargePlace>('above-throttle', 'below-throttle');
const path = fc.constantFrom<injectors.InductionPath>('natural', 'draw-through', 'blow-through');
const scheme = fc.constantFrom<injectors.FiringScheme>(
  'once-per-cycle',
  'twice-per-cycle',
  'every-ignition-event',
  'alternating',
);
const injection = fc.record({
  staticFlow: size(1e-3, 0.05),
  deadTime: size(1e-5, 1.5e-3),
  speed: size(8, 130),
  pulsesPerCycle: size(1, 8),
});

describe('pressure at the injector tip', () => {
  it('is never above ambient ahead of a draw-through compressor, nor above the plates of a natural engine', () => {
    fc.assert(
      fc.property(
        place,
        size(0, 2e5),
        size(20e3, 3e5),
        size(60e3, 105e3),
        (where, boost, manifoldPressure, ambient) => {
          const at = { place: where, boost, manifoldPressure, ambient };
          expect(injectors.dischargePressure({ ...at, path: 'draw-through' })).toBeLessThanOrEqual(ambient);
          expect(injectors.dischargePressure({ ...at, place: 'above-throttle', path: 'natural' })).toBe(ambient);
        },
      ),
    );
  });

  it('above the plates it does not depend on the manifold', () => {
    fc.assert(
      fc.property(path, size(0, 2e5), size(20e3, 3e5), size(20e3, 3e5), (way, boost, one, other) => {
        const at = { place: 'above-throttle' as const, path: way, boost, ambient: 1e5 };
        const pressure = (manifoldPressure: number) => injectors.dischargePressure({ ...at, manifoldPressure });
        expect(pressure(one)).toBe(pressure(other));
      }),
    );
  });

  it('a regulator referenced to the tip keeps the pressure across at its setting', () => {
    fc.assert(
      fc.property(size(1e5, 6e5), size(20e3, 3e5), size(60e3, 105e3), (setting, tip, ambient) => {
        fc.pre(setting + tip - ambient > 1);
        const rail = injectors.railPressure(setting, tip, ambient);
        expect(injectors.pressureAcross(rail, ambient, tip) / setting).toBeCloseTo(1, 9);
      }),
    );
  });

  it('says so when no fuel can flow', () => {
    expect(() => injectors.pressureAcross(1e5, 1e5, 2e5)).toThrow(/no fuel flows/);
    expect(() => injectors.railPressure(50e3, 30e3, 1e5)).toThrow(RangeError);
  });
});

describe('injector flow and duty', () => {
  it('flow rises with pressure, and the pressure for a flow is its inverse', () => {
    fc.assert(
      fc.property(size(1e-3, 0.05), size(1e5, 5e5), rising(5e4, 8e5), (rated, at, [low, high]) => {
        const flow = injectors.staticFlow(rated, at, low);
        expect(flow).toBeLessThan(injectors.staticFlow(rated, at, high));
        expect(injectors.pressureForFlow(flow, rated, at) / low).toBeCloseTo(1, 9);
      }),
    );
  });

  it('the required static flow meets the duty limit exactly', () => {
    fc.assert(
      fc.property(injection, size(1e-4, 0.04), size(0.5, 1), (how, flow, limit) => {
        fc.pre(how.deadTime / injectors.pulsePeriod(how.speed, how.pulsesPerCycle) < limit - 0.01);
        const staticFlow = injectors.requiredStaticFlow(flow, limit, how);
        expect(injectors.duty(flow, { ...how, staticFlow })).toBeCloseTo(limit, 9);
        expect(injectors.flowAtDuty(limit, { ...how, staticFlow }) / flow).toBeCloseTo(1, 9);
      }),
    );
  });

  it('duty rises with flow, speed, dead time and pulses per cycle', () => {
    fc.assert(
      fc.property(injection, size(1e-4, 0.04), (how, flow) => {
        const duty = injectors.duty(flow, how);
        expect(injectors.duty(flow * 1.1, how)).toBeGreaterThan(duty);
        expect(injectors.duty(flow, { ...how, speed: how.speed * 1.1 })).toBeGreaterThan(duty);
        expect(injectors.duty(flow, { ...how, deadTime: how.deadTime + 1e-4 })).toBeGreaterThan(duty);
        expect(injectors.duty(flow, { ...how, pulsesPerCycle: how.pulsesPerCycle + 1 })).toBeGreaterThan(duty);
        expect(injectors.duty(flow, { ...how, staticFlow: how.staticFlow * 1.1 })).toBeLessThan(duty);
      }),
    );
  });

  it('what the pulses of a cycle pass is what the engine takes', () => {
    fc.assert(
      fc.property(injection, size(1e-4, 0.04), (how, flow) => {
        const open = injectors.pulseWidth(flow, how) - how.deadTime;
        const perCycle = open * how.staticFlow * how.pulsesPerCycle;
        expect(perCycle / injectors.cycleTime(how.speed) / flow).toBeCloseTo(1, 6);
      }),
    );
  });

  it('every scheme fires at least once a cycle on two cylinders or more', () => {
    fc.assert(
      fc.property(scheme, fc.integer({ min: 2, max: 16 }), (how, cylinders) => {
        expect(injectors.pulsesPerCycle(how, cylinders)).toBeGreaterThanOrEqual(1);
      }),
    );
  });

  it('says so when dead time leaves nothing', () => {
    expect(() => injectors.requiredStaticFlow(0.01, 0.85, { deadTime: 2.5e-3, speed: 100, pulsesPerCycle: 8 })).toThrow(
      /Dead time alone takes 100 %/,
    );
  });
});

describe('dead time', () => {
  it('is linear in the table, held outside it, and says when it is outside', () => {
    const table = [
      { voltage: 10, deadTime: 1.5e-3 },
      { voltage: 14, deadTime: 0.8e-3 },
    ];
    expect(deadTimeFromTable(12, table).deadTime).toBeCloseTo(1.15e-3, 12);
    expect(deadTimeFromTable(8, table)).toEqual({ deadTime: 1.5e-3, outside: true });
    expect(deadTimeFromTable(16, table)).toEqual({ deadTime: 0.8e-3, outside: true });
    expect(deadTimeFromTable(14, table)).toEqual({ deadTime: 0.8e-3, outside: false });
    expect(() => deadTimeFromTable(12, [])).toThrow('The dead-time table is empty.');
    expect(() => deadTimeFromTable(12, [...table].reverse())).toThrow(RangeError);
  });

  it('rises as the battery falls', () => {
    fc.assert(
      fc.property(rising(7, 16), ([low, high]) => {
        const known = { voltage: 14, deadTime: 1e-3 };
        expect(deadTimeEstimate(low, known)).toBeGreaterThan(deadTimeEstimate(high, known));
      }),
    );
  });
});

describe('idle', () => {
  it('the smallest flow asks for the shortest pulse', () => {
    fc.assert(
      fc.property(injection, size(1e-5, 2e-3), (how, extra) => {
        const shortest = how.deadTime + extra;
        const flow = smallestFlow(shortest, how);
        expect(injectors.pulseWidth(flow, how) / shortest).toBeCloseTo(1, 6);
      }),
    );
  });

  it('a cam that idles at a higher manifold pressure takes more air', () => {
    const engine = { displacement: 0.005, speed: 12 };
    expect(idleAirFlow({ ...engine, manifoldPressure: 60e3 })).toBeGreaterThan(idleAirFlow(engine));
  });
});

it('injectors refuse nonsense with a sentence', () => {
  const how = { staticFlow: 0.01, deadTime: 1e-3, speed: 90, pulsesPerCycle: 1 };
  expectRefusals(injectors.dischargePressure, {
    place: 'above-throttle',
    path: 'natural',
    boost: 0,
    manifoldPressure: 4e4,
    ambient: 1e5,
  });
  expectRefusals(injectors.railPressure, 4e5, 1e5, 1e5);
  expectRefusals(injectors.pressureAcross, 4e5, 1e5, 1e5);
  expectRefusals(injectors.staticFlow, 0.01, 3e5, 4e5, { density: 740, ratedDensity: 690 });
  expectRefusals(injectors.pressureForFlow, 0.01, 0.009, 3e5);
  expectRefusals(injectors.pulsePeriod, 90, 2);
  expectRefusals(injectors.pulseWidth, 0.005, how);
  expectRefusals(injectors.duty, 0.005, how);
  expectRefusals(injectors.flowAtDuty, 0.85, how);
  expectRefusals(injectors.requiredStaticFlow, 0.005, 0.85, { deadTime: 1e-3, speed: 90, pulsesPerCycle: 1 });
  expectRefusals(smallestFlow, 1.5e-3, how);
  expectRefusals(idleAirFlow, {
    displacement: 0.005,
    speed: 12,
    manifoldPressure: 4e4,
    airTemperature: 313,
    volumetricEfficiency: 0.5,
  });
  expectRefusals(deadTimeEstimate, 12, { voltage: 14, deadTime: 1e-3 });
  expect(() => injectors.pulsesPerCycle('alternating', 7.5)).toThrow(/must be whole/);
  expect(() => injectors.pulsesPerCycle('once-per-cycle', 0)).toThrow(RangeError);
});
