import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figureOf, type Parameters, sheetWith } from './sheets.ts';

type Direction = 'rises' | 'falls' | 'never rises' | 'never falls';

/** What a figure does when one field of the sheet grows: field, its range and unit, figure, direction, stage. */
const trends: [keyof Parameters, from: number, to: number, unit: string, figure: string, Direction, stage?: number][] =
  [
    ['power', 100, 600, 'hp', 'demand-by-power', 'rises'],
    ['power', 100, 600, 'hp', 'air-demand', 'rises'],
    ['power', 100, 600, 'hp', 'required-delivery', 'rises'],
    ['power', 100, 600, 'hp', 'mean-effective-pressure', 'rises'],
    ['power', 100, 350, 'hp', 'duty-redline', 'rises'],
    ['power', 100, 350, 'hp', 'depression', 'rises'],
    ['power', 100, 350, 'hp', 'pump-margin', 'falls'],
    ['displacement', 3, 9, 'L', 'air-by-volume', 'rises'],
    ['displacement', 3, 9, 'L', 'mean-effective-pressure', 'falls'],
    ['displacement', 3, 9, 'L', 'idle-pulse', 'rises'],
    ['redline', 5000, 7500, 'rpm', 'duty-redline', 'rises'],
    ['redline', 5000, 7500, 'rpm', 'dwell-available', 'falls'],
    ['redline', 5000, 7500, 'rpm', 'coil-current-redline', 'never rises'],
    ['staticFlow', 50, 200, 'lb/h', 'duty-redline', 'falls'],
    ['staticFlow', 50, 200, 'lb/h', 'idle-pulse', 'falls'],
    ['staticFlow', 50, 200, 'lb/h', 'injector-flow', 'rises'],
    ['staticFlow', 50, 200, 'lb/h', 'required-static-flow', 'never rises'],
    ['setPressure', 40, 70, 'psi', 'injector-flow', 'rises'],
    ['setPressure', 40, 70, 'psi', 'pump-delivery', 'falls'],
    ['setPressure', 40, 70, 'psi', 'rail-pressure', 'rises'],
    ['feedLength', 0.5, 20, 'm', 'pump-delivery', 'never rises'],
    ['feedLength', 0.5, 20, 'm', 'pump-pressure', 'rises'],
    ['feedDiameter', 5, 12, 'mm', 'pump-delivery', 'never falls'],
    ['feedDiameter', 5, 12, 'mm', 'feed-velocity', 'falls'],
    ['hottestFuel', 20, 55, 'degC', 'suction-head', 'falls'],
    ['hottestFuel', 20, 55, 'degC', 'vapor-pressure', 'rises'],
    ['hottestFuel', 20, 55, 'degC', 'hot-fuel-density', 'falls'],
    ['altitude', 0, 3500, 'm', 'suction-head', 'falls'],
    ['altitude', 0, 3500, 'm', 'site-pressure', 'falls'],
    ['altitude', 0, 3500, 'm', 'pressure-ratio', 'rises', 1],
    ['altitude', 0, 3500, 'm', 'depression', 'rises'],
    ['altitude', 0, 4500, 'm', 'boiling-temperature', 'falls'],
    ['altitude', 0, 4500, 'm', 'tank-pressure', 'falls'],
    ['vaporPressure', 5, 15, 'psi', 'boiling-temperature', 'falls'],
    ['vaporPressure', 5, 15, 'psi', 'vapor-share', 'rises'],
    ['vaporPressure', 5, 15, 'psi', 'heated-vapor-share', 'rises'],
    ['hottestFuel', 20, 80, 'degC', 'vapor-share', 'rises'],
    ['hottestFuel', 20, 80, 'degC', 'boiling-temperature', 'never rises'],
    ['capPressure', 0, 7, 'psi', 'boiling-temperature', 'rises'],
    ['capPressure', 0, 7, 'psi', 'suction-head', 'rises'],
    ['tankCapacity', 20, 200, 'L', 'heated-fuel', 'falls'],
    ['dwellVoltage', 12.5, 15, 'V', 'heated-fuel', 'rises'],
    ['returnDiameter', 4, 10, 'mm', 'return-friction', 'falls'],
    ['returnDiameter', 3, 10, 'mm', 'idle-rail-pressure', 'never rises'],
    ['returnDiameter', 3, 10, 'mm', 'injector-flow', 'never rises'],
    ['returnDiameter', 3, 10, 'mm', 'idle-pulse', 'never falls'],
    ['suctionLength', 0.1, 3, 'm', 'suction-head', 'falls'],
    ['height', -0.4, 0.6, 'm', 'suction-head', 'falls'],
    ['boost', 2, 14, 'psi', 'sensor-pressure', 'rises', 1],
    ['boost', 2, 14, 'psi', 'charge-density', 'rises', 1],
    ['boost', 2, 14, 'psi', 'effective-compression', 'rises', 1],
    ['boost', 2, 14, 'psi', 'blower-outlet-temperature', 'rises', 1],
    ['boost', 2, 14, 'psi', 'timing-full-load', 'never rises', 1],
    ['boost', 2, 14, 'psi', 'demand-by-power', 'never rises', 1],
    ['dwellVoltage', 12.5, 15, 'V', 'pump-voltage', 'rises'],
    ['dwellVoltage', 13.4, 15, 'V', 'pump-delivery', 'never falls'],
    ['dwellVoltage', 12.5, 15, 'V', 'dead-time', 'falls'],
    ['coldest', -30, 20, 'degC', 'air-share-coldest-day', 'falls'],
    ['coldest', -30, 20, 'degC', 'air-share-coldest-day', 'falls', 1],
    ['coldest', -30, 20, 'degC', 'demand-coldest-day', 'falls'],
    ['coldest', -30, 20, 'degC', 'duty-coldest-day', 'falls'],
    ['coldest', -30, 20, 'degC', 'required-static-flow-coldest-day', 'falls'],
    ['coldest', -30, 20, 'degC', 'required-delivery-coldest-day', 'falls'],
    ['coldest', -30, 20, 'degC', 'pump-margin-coldest-day', 'rises'],
    ['coldest', -30, 20, 'degC', 'depression-coldest-day', 'falls'],
    ['coldest', -30, 20, 'degC', 'cold-fuel-density', 'falls'],
    ['lowest', -400, 300, 'm', 'low-site-pressure', 'falls'],
    ['lowest', -400, 300, 'm', 'air-share-coldest-day', 'falls'],
    ['lowest', -400, 300, 'm', 'sensor-pressure', 'falls', 1],
    ['highest', 300, 4500, 'm', 'high-site-pressure', 'falls'],
    ['highest', 300, 4500, 'm', 'boiling-temperature', 'falls'],
    ['highest', 300, 4500, 'm', 'tank-pressure', 'falls'],
    ['power', 100, 600, 'hp', 'standard-power', 'rises'],
    ['altitude', 0, 3000, 'm', 'standard-power', 'rises'],
    ['camDuration', 180, 300, 'deg', 'mean-effective-pressure-most', 'never falls'],
    ['camDuration', 180, 300, 'deg', 'mean-effective-pressure-usual', 'never falls', 1],
    ['camDuration', 180, 300, 'deg', 'mean-effective-pressure-least', 'never falls'],
    ['altitude', 0, 3000, 'm', 'mean-effective-pressure-most', 'falls'],
    ['boost', 2, 14, 'psi', 'mean-effective-pressure-usual', 'rises', 1],
    ['feedLength', 0.5, 20, 'm', 'feed-loss', 'rises'],
    ['feedDiameter', 5, 12, 'mm', 'feed-loss', 'falls'],
    ['displacement', 3, 9, 'L', 'largest-static-flow', 'rises'],
    ['staticFlow', 50, 200, 'lb/h', 'largest-static-flow', 'never rises'],
    ['power', 100, 600, 'hp', 'throttle-area-least', 'rises'],
    ['power', 100, 600, 'hp', 'throttle-area-most', 'rises'],
    ['coldest', -30, 20, 'degC', 'throttle-area-least', 'never rises'],
    ['feedDiameter', 5, 12, 'mm', 'feed-bore-least', 'never falls'],
  ];

const number = (value: number) => String(Number(value.toFixed(6)));

describe('a figure', () => {
  it.each(trends)('with more %s (%d to %d %s): %s %s', (field, from, to, unit, id, direction, stage = 0) => {
    const place = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(place, place, (one, other) => {
        const [low, high] = [Math.min(one, other), Math.max(one, other)].map((share) => from + share * (to - from));
        if ((high as number) - (low as number) < 0.01 * (to - from)) return;
        const [before, after] = [low, high].map((value) =>
          figureOf(sheetWith({ [field]: `${number(value as number)} ${unit}` }), id, stage),
        ) as [number, number];
        const slack = 1e-9 * Math.max(Math.abs(before), Math.abs(after));
        if (direction === 'rises') expect(after).toBeGreaterThan(before + slack);
        if (direction === 'falls') expect(after).toBeLessThan(before - slack);
        if (direction === 'never rises') expect(after).toBeLessThanOrEqual(before + slack);
        if (direction === 'never falls') expect(after).toBeGreaterThanOrEqual(before - slack);
      }),
      { numRuns: 12 },
    );
  });

  it('of neat alcohol has more vapor to light the warmer the morning', () => {
    const ratios = [-20, -5, 0, 10, 20].map((day) =>
      figureOf(sheetWith({ grade: 'methanol', coldest: `${day} degC` }), 'cold-vapor-ratio'),
    );
    expect(ratios).toEqual(ratios.toSorted((one, other) => one - other));
    expect(ratios[0]).toBeLessThan(0.5);
    expect(ratios.at(-1)).toBeGreaterThan(0.5);
  });

  it('of a classed blend asks for more vapor pressure the colder the morning', () => {
    const least = [-30, -10, 0, 10].map((day) =>
      figureOf(sheetWith({ grade: 'e85', coldest: `${day} degC` }), 'winter-vapor-pressure'),
    );
    expect(least).toEqual(least.toSorted((one, other) => other - one));
    expect(new Set(least).size).toBe(4);
  });

  it('of a corrected claim is worth less the higher the site', () => {
    const there = [0, 1000, 2000, 3000].map((height) =>
      figureOf(sheetWith({ condition: 'standard', altitude: `${height} m` }), 'power-at-site'),
    );
    expect(there).toEqual(there.toSorted((one, other) => other - one));
    expect(new Set(there).size).toBe(4);
  });

  it('of a thinner wire leaves less for the pump', () => {
    const voltages = [6, 8, 10, 12, 14, 16, 18].map((gauge) =>
      figureOf(sheetWith({ wire: `${gauge} AWG` }), 'pump-voltage'),
    );
    expect(voltages).toEqual(voltages.toSorted((one, other) => other - one));
    expect(new Set(voltages).size).toBe(voltages.length);
  });
});
