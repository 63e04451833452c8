import { describe, expect, it } from 'vitest';
import { noHouse, ofFolder, ofSheet, unitsIn } from '../../../server/src/sheet/house.ts';
import { formatValue } from '../../../server/src/units/format.ts';
import type { Dimension } from '../../../server/src/units/units.ts';
import { read } from './marked.ts';

const shown = (text: string, value: number, dimension: Dimension, house = noHouse) =>
  formatValue(value, dimension, unitsIn(ofSheet(house, read(text).values)));

describe('the units values are shown in', () => {
  it('are those that the sheet writes for the kind of quantity', () => {
    const text = `format: 1
stages: [{ name: now, power: 180 kW, boost: 0.4 bar }]
throttle-body: { injectors: { static-flow: 600 cc/min } }
fuel-system: { feed: { inside-diameter: 8 mm, length: 5 m }, pump: { height-above-outlet: 2 in } }
site: { hottest: 104 degF }
`;
    expect(shown(text, 100e3, 'power')).toBe('100 kW');
    expect(shown(text, 300e3, 'pressure')).toBe('3 bar');
    expect(shown(text, 200e3, 'absolute-pressure')).toBe('2 bar');
    expect(shown(text, 6e-3, 'injector-flow')).toBe('500 cc/min');
    expect(shown(text, 0.01, 'length')).toBe('10 mm');
    expect(shown(text, 313.15, 'temperature')).toBe('104 degF');
  });

  it('are those of the house for kinds the sheet does not write, else those in which most of it is written', () => {
    const metric = 'format: 1\nstages: [{ power: 180 kW }]\nengine: { displacement: 4 L }\n';
    expect(shown(metric, 0.1, 'air-flow')).toBe('360 m^3/h');
    expect(shown(metric, 0.1, 'air-flow', { units: 'us' })).toBe('212 cfm');
    expect(shown(metric, 100e3, 'power', { units: 'us' })).toBe('100 kW');
    expect(shown('format: 1\n', 0.1, 'air-flow')).toBe('212 cfm');
    expect(shown('format: 1\n', 5e3, 'depression')).toBe('1.48 inHg');
    expect(shown('format: 1\nsensors: { manifold-pressure: { range: 250 kPa } }\n', 3e5, 'pressure')).toBe('300 kPa');
  });

  it('are the house’s where a kind is written in two ways as often', () => {
    const text = 'format: 1\nfuel-system: { feed: { inside-diameter: 8 mm }, return: { inside-diameter: 3/8 in } }\n';
    expect(shown(text, 0.01, 'length', { units: 'si' })).toBe('10 mm');
    expect(shown(text, 0.01, 'length', { units: 'us' })).toBe('0.394 in');
  });

  it('show a vacuum in inches of mercury and no pressure besides', () => {
    const text = 'format: 1\nengine: { idle-manifold-pressure: 15 inHg vacuum }\n';
    expect(shown(text, 300e3, 'absolute-pressure')).toBe('43.5 psi');
  });

  it('stay the same object as long as they are the same, so that what was checked is taken over', () => {
    const one = ofSheet(noHouse, read('format: 1\nstages: [{ power: 180 kW }]\n').values);
    const other = ofSheet(one, read('format: 1\nstages: [{ power: 190 kW }]\n').values);
    expect(other).toBe(one);
    expect(ofFolder(one)).toBe(noHouse);
    expect(ofSheet(one, read('format: 1\nstages: [{ power: 190 hp }]\n').values)).not.toBe(one);
  });
});
