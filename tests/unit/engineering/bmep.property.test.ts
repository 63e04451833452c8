import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as bmep from '../../../server/src/engineering/bmep.ts';
import { brakeMeanEffectivePressure } from '../../../server/src/engineering/demand.ts';
import { idleManifoldPressure } from '../../../server/src/engineering/idle.ts';
import { type TorqueCurve, torqueAt, torqueCurveOf } from '../../../server/src/engineering/torque-curve.ts';
import { rising, size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

const build = fc.constantFrom<bmep.Build>('mild', 'long-cam', 'racing');

describe('mean effective pressure', () => {
  it('expected grows with the cam and with the density of the charge', () => {
    expect(bmep.buildOfCam(200)).toBe('mild');
    expect(bmep.naturalBmep.mild.high).toBeLessThan(bmep.naturalBmep['long-cam'].high);
    expect(bmep.naturalBmep['long-cam'].high).toBeLessThan(bmep.naturalBmep.racing.high);
    fc.assert(
      fc.property(build, rising(1, 3), size(0, 5e4), (of, [thin, dense], drive) => {
        const [less, more] = [bmep.boostedBmep(of, thin, drive), bmep.boostedBmep(of, dense, drive)];
        for (const end of ['low', 'usual', 'high'] as const) expect(more[end]).toBeGreaterThan(less[end]);
        expect(less.low).toBeLessThan(less.usual);
        expect(less.usual).toBeLessThan(less.high);
      }),
    );
  });

  it('of 140 psi gives back the power that asked for the speed', () => {
    fc.assert(
      fc.property(size(5e3, 1e6), size(0.2e-3, 10e-3), (power, displacement) => {
        const { speed, capped } = bmep.usualPeakPowerSpeed(power, displacement);
        expect(speed).toBeLessThanOrEqual(bmep.HIGHEST_ASSUMED_SPEED);
        const found = brakeMeanEffectivePressure(power, displacement, speed) / bmep.USUAL_BMEP;
        if (capped) expect(found).toBeGreaterThan(1);
        else expect(found).toBeCloseTo(1, 9);
      }),
    );
  });

  it('refuses nonsense with a sentence', () => {
    expectRefusals(bmep.usualPeakPowerSpeed, 2e5, 5e-3);
    expectRefusals(bmep.buildOfCam, 210);
    expectRefusals((ratio: number, drive: number) => bmep.boostedBmep('mild', ratio, drive), 1.4, 1e4);
    expectRefusals(idleManifoldPressure, 210);
    expect(() => bmep.boostedBmep('mild', 1, 2e6)).toThrow('compressor leaves');
  });
});

describe('idle manifold pressure', () => {
  it('rises with the duration of the cam', () => {
    fc.assert(
      fc.property(rising(195, 265), ([short, long]) => {
        expect(idleManifoldPressure(long)).toBeGreaterThan(idleManifoldPressure(short));
      }),
    );
  });
});

describe('the usual torque curve', () => {
  const of = fc.record({ power: size(2e4, 1e6), peakPowerSpeed: size(40, 150) });
  const powerAt = (curve: TorqueCurve, speed: number) => torqueAt(curve, speed).torque * speed;

  it('peaks in power exactly at the peak-power speed and in torque at 0.65 of it', () => {
    fc.assert(
      fc.property(of, size(0.05, 1.6), (curve, share) => {
        const speed = share * curve.peakPowerSpeed;
        const full = powerAt(curve, curve.peakPowerSpeed);
        expect(full * 2 * Math.PI).toBeCloseTo(curve.power, 3);
        expect(powerAt(curve, speed)).toBeLessThanOrEqual(full * (1 + 1e-12));
        const most = torqueAt(curve, 0.65 * curve.peakPowerSpeed).torque;
        expect(torqueAt(curve, speed).torque).toBeLessThanOrEqual(most * (1 + 1e-12));
        expect(torqueAt(curve, speed).torque).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('has no step and scales with the power', () => {
    fc.assert(
      fc.property(of, size(0.05, 1.5), (curve, share) => {
        const at = (part: number) => torqueAt(curve, part * curve.peakPowerSpeed).torque;
        expect(Math.abs(at(share + 1e-6) - at(share))).toBeLessThan(1e-5 * at(0.65));
        const double = torqueAt({ ...curve, power: 2 * curve.power }, share * curve.peakPowerSpeed).torque;
        expect(double).toBeCloseTo(2 * at(share), 6);
      }),
    );
  });

  it('says where it is not meant for', () => {
    const curve = { power: 2e5, peakPowerSpeed: 80 };
    expect([10, 20, 80, 90, 95].map((speed) => torqueAt(curve, speed).outside)).toEqual([
      true,
      false,
      false,
      false,
      true,
    ]);
  });

  it('gives way to measured points, held beyond them', () => {
    const curve = torqueCurveOf([
      { speed: 30, torque: 300 },
      { speed: 50, torque: 340 },
      { speed: 80, torque: 290 },
    ]);
    expect(torqueAt(curve, 50)).toEqual({ torque: 340, outside: false });
    expect(torqueAt(curve, 20)).toEqual({ torque: 300, outside: true });
    expect(torqueAt(curve, 100)).toEqual({ torque: 290, outside: true });
    expect(() => torqueCurveOf([{ speed: 30, torque: 0 }])).toThrow('A torque of the torque curve');
    expect(() => torqueCurveOf([{ speed: 30, torque: 300 }])).toThrow('two points');
  });

  it('refuses nonsense with a sentence', () => {
    expectRefusals(torqueAt, { power: 2e5, peakPowerSpeed: 80 }, 50);
  });
});
