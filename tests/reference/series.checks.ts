import {
  hoseBores,
  injectorFlows,
  pumpFlows,
  renard20,
  sizeAbove,
  sizeAtLeast,
  sizeBelow,
  wireSizes,
} from '../../server/src/engineering/series.ts';
import { awgArea } from '../../server/src/engineering/wire.ts';
import { type Check, ownCheck } from './check.ts';
import { INCH, LITER_PER_HOUR, POUND_PER_HOUR } from './units.ts';

const own = ownCheck(19, 'series');
const listed = [40, 45, 50, 56, 63, 71, 80, 90, 100, 112];
const preferred = 'ISO 3:1973, preferred numbers R20, from memory';

export const checks: Check[] = [
  own(
    'series-definition',
    'Largest relative difference of R20 from 10 to 100 from its definition, powers of the twentieth root of ten',
    () => Math.max(...renard20(1, 100, 1000).map((size, i) => Math.abs(size / 100 / 10 ** (i / 20) - 1))),
    0,
    '-',
    { absolute: 0.0127 },
    `${preferred}: rounding stays within 1.26 %`,
  ),
  own(
    'series-listed',
    'how many of 40, 45, 50, 56, 63, 71, 80, 90, 100, 112 lb/h are sizes of injectors',
    () => listed.filter((size) => injectorFlows.some((flow) => Math.abs(flow / POUND_PER_HOUR - size) < 1e-6)).length,
    10,
    'sizes',
    0,
    'engineering notes, section 19',
  ),
  own(
    'series-injector',
    'injector for at least 82 lb/h',
    () => (sizeAtLeast(injectorFlows, 82 * POUND_PER_HOUR) ?? 0) / POUND_PER_HOUR,
    90,
    'lb/h',
    1e-9,
    preferred,
  ),
  own(
    'series-injector-exact',
    'injector for at least 80 lb/h',
    () => (sizeAtLeast(injectorFlows, 80 * POUND_PER_HOUR) ?? 0) / POUND_PER_HOUR,
    80,
    'lb/h',
    1e-9,
    preferred,
  ),
  own(
    'series-pump',
    'pump for at least 230 L/h',
    () => (sizeAtLeast(pumpFlows, 230 * LITER_PER_HOUR) ?? 0) / LITER_PER_HOUR,
    250,
    'L/h',
    1e-9,
    preferred,
  ),
  own(
    'series-hose',
    'next hose up from 5/16 in',
    () => (sizeAbove(hoseBores.inch, 0.3125 * INCH) ?? 0) / INCH,
    0.375,
    'in',
    1e-9,
    'sizes of the trade',
  ),
  own(
    'series-tube',
    'next tube down from 10 mm',
    () => (sizeBelow(hoseBores.metric, 0.01) ?? 0) * 1e3,
    8,
    'mm',
    1e-9,
    'sizes of the trade',
  ),
  own(
    'series-wire',
    'next gauge up from 12',
    () => (sizeAbove(wireSizes.gauge, awgArea(12)) ?? 0) * 1e6,
    5.2615,
    'mm2',
    1e-4,
    'area of 10 AWG, ASTM B258',
  ),
];
