import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  boreArea,
  boreForVelocity,
  colebrook,
  frictionFactor,
  fullyTurbulentFactor,
  lineLoss,
  reynolds,
  staticHead,
  suctionLineLoss,
  swameeJain,
  velocity,
  wayLoss,
} from '../../../server/src/engineering/lines.ts';
import { between, LITER_PER_HOUR, line, liquid, noNumbers } from './fuel-systems.ts';

const flow = between(0, 1000).map((litersPerHour) => litersPerHour * LITER_PER_HOUR);
const tube = { diameter: 0.008, length: 5, roughness: 1.5e-6 };
const gasoline = { density: 745, viscosity: 6.7e-7 };

describe('the friction factor', () => {
  it('solves the equation of Colebrook', () => {
    fc.assert(
      fc.property(between(4000, 1e8), between(0, 0.05), (re, relative) => {
        const root = Math.sqrt(colebrook(re, relative));
        expect(1 / root).toBeCloseTo(-2 * Math.log10(relative / 3.7 + 2.51 / (re * root)), 9);
      }),
    );
  });

  it('is continuous at both ends of the transition and lies between them inside it', () => {
    fc.assert(
      fc.property(between(0, 0.05), between(2000, 4000), (relative, re) => {
        for (const end of [2000, 4000]) {
          const [below, above] = [frictionFactor(end - 1e-6, relative), frictionFactor(end + 1e-6, relative)];
          expect(Math.abs(above - below)).toBeLessThan(1e-8);
        }
        const inside = frictionFactor(re, relative);
        expect(inside).toBeGreaterThanOrEqual(0.032 - 1e-12);
        expect(inside).toBeLessThanOrEqual(colebrook(4000, relative) + 1e-12);
      }),
    );
  });

  it('is smaller in a smoother line', () => {
    fc.assert(
      fc.property(between(4000, 1e7), between(0, 0.04), between(0.0001, 0.01), (re, relative, more) => {
        expect(frictionFactor(re, relative + more)).toBeGreaterThan(frictionFactor(re, relative));
      }),
    );
  });

  it('refuses a flow at rest, a wall rougher than the chart and what is no number', () => {
    expect(() => frictionFactor(0, 0)).toThrow('The Reynolds number must be above zero.');
    expect(() => frictionFactor(1e5, 0.06)).toThrow('roughness');
    expect(() => frictionFactor(100, -0.001)).toThrow(RangeError);
    expect(() => colebrook(1500, 0)).toThrow('turbulent');
    expect(() => swameeJain(1500, 0)).toThrow('turbulent');
    for (const value of noNumbers) {
      expect(() => frictionFactor(value, 0)).toThrow(RangeError);
      expect(() => frictionFactor(5000, value)).toThrow(RangeError);
    }
  });
});

describe('the loss of a line', () => {
  it('rises with the flow, also through the transition', () => {
    fc.assert(
      fc.property(line, liquid, flow, flow, (pipe, fuel, one, other) => {
        const [less, more] = [Math.min(one, other), Math.max(one, other)];
        expect(lineLoss(pipe, fuel, less).friction).toBeLessThanOrEqual(lineLoss(pipe, fuel, more).friction);
      }),
    );
  });

  it('rises with length, elbows and a narrower bore', () => {
    fc.assert(
      fc.property(line, liquid, flow, between(0.01, 5), (pipe, fuel, rate, more) => {
        const base = lineLoss(pipe, fuel, rate).friction;
        expect(lineLoss({ ...pipe, length: pipe.length + more }, fuel, rate).friction).toBeGreaterThanOrEqual(base);
        expect(lineLoss({ ...pipe, elbows90: 9 }, fuel, rate).friction).toBeGreaterThanOrEqual(base);
        const wider = { ...pipe, diameter: pipe.diameter * 1.2 };
        expect(lineLoss(wider, fuel, rate).friction).toBeLessThanOrEqual(base);
      }),
    );
  });

  it('is the sum of straight line and fittings and always a number', () => {
    fc.assert(
      fc.property(line, liquid, flow, (pipe, fuel, rate) => {
        const loss = lineLoss(pipe, fuel, rate);
        expect(loss.friction).toBe(loss.straight + loss.fittings);
        for (const value of Object.values(loss)) expect(Number.isFinite(value)).toBe(true);
      }),
    );
  });

  it('is nothing at rest', () => {
    expect(lineLoss(tube, gasoline, 0)).toEqual({
      velocity: 0,
      reynolds: 0,
      frictionFactor: 0,
      straight: 0,
      fittings: 0,
      friction: 0,
    });
  });

  it('is a number for the smallest flow there is', () => {
    expect(lineLoss(tube, gasoline, Number.MIN_VALUE).friction).toBe(0);
    expect(lineLoss(tube, gasoline, 1e-150).friction).toBeGreaterThan(0);
  });

  it('refuses what no line or liquid can be', () => {
    for (const value of [...noNumbers, -1]) {
      expect(() => lineLoss({ ...tube, diameter: value }, gasoline, 1e-5)).toThrow("The line's inside diameter");
      expect(() => lineLoss({ ...tube, length: value }, gasoline, 1e-5)).toThrow("The line's length");
      expect(() => lineLoss({ ...tube, roughness: value }, gasoline, 1e-5)).toThrow('roughness');
      expect(() => lineLoss({ ...tube, elbows90: value }, gasoline, 1e-5)).toThrow('90 degree elbows');
      expect(() => lineLoss({ ...tube, elbows45: value }, gasoline, 1e-5)).toThrow('45 degree elbows');
      expect(() => lineLoss(tube, { ...gasoline, density: value }, 1e-5)).toThrow('The density');
      expect(() => lineLoss(tube, { ...gasoline, viscosity: value }, 1e-5)).toThrow('viscosity');
      expect(() => lineLoss(tube, gasoline, value)).toThrow('The flow');
    }
    expect(() => lineLoss({ ...tube, diameter: 0 }, gasoline, 1e-5)).toThrow(RangeError);
    expect(() => staticHead(745, Number.NaN)).toThrow('The rise');
    expect(() => boreArea(0)).toThrow(RangeError);
    expect(() => boreForVelocity(1e-5, 0)).toThrow('The velocity');
    expect(() => reynolds(1e-5, 0.008, 0)).toThrow('viscosity');
  });
});

describe('bore and velocity', () => {
  it('are each other read backwards', () => {
    fc.assert(
      fc.property(between(1, 1000), between(0.1, 5), (litersPerHour, speed) => {
        const rate = litersPerHour * LITER_PER_HOUR;
        expect(velocity(rate, boreForVelocity(rate, speed))).toBeCloseTo(speed, 9);
      }),
    );
  });
});

describe('the suction side', () => {
  it('counts no less for its fittings than the feed side, and the same for its straight run', () => {
    fc.assert(
      fc.property(line, liquid, flow, (one, of, amount) => {
        const [feed, suction] = [lineLoss(one, of, amount), suctionLineLoss(one, of, amount)];
        expect(suction.straight).toBe(feed.straight);
        expect(suction.fittings).toBeGreaterThanOrEqual(feed.fittings * (1 - 1e-12));
        expect(suction.friction).toBeCloseTo(suction.straight + suction.fittings, 6);
      }),
    );
  });

  it('has a smaller fully turbulent factor in a wider bore', () => {
    fc.assert(
      fc.property(between(0.003, 0.05), between(1.01, 2), (diameter, wider) => {
        expect(fullyTurbulentFactor(diameter * wider)).toBeLessThan(fullyTurbulentFactor(diameter));
      }),
    );
    expect(() => fullyTurbulentFactor(0)).toThrow('inside diameter');
    for (const value of noNumbers) expect(() => fullyTurbulentFactor(value)).toThrow(RangeError);
  });
});

describe('a way of several lines', () => {
  it('keeps friction and height apart, and adds both up', () => {
    fc.assert(
      fc.property(fc.array(line, { maxLength: 3 }), liquid, flow, (lines, of, amount) => {
        const whole = wayLoss(lines, of, amount);
        expect(whole.friction).toBeGreaterThanOrEqual(0);
        const apart = lines.map((one) => wayLoss([one], of, amount));
        expect(whole.friction).toBeCloseTo(
          apart.reduce((sum, one) => sum + one.friction, 0),
          3,
        );
        expect(whole.static).toBeCloseTo(
          apart.reduce((sum, one) => sum + one.static, 0),
          6,
        );
        expect(wayLoss(lines, of, 0).friction).toBe(0);
      }),
    );
  });
});
