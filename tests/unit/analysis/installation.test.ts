import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { boosterVacuum } from '../../../server/src/analysis/brakes.ts';
import { idleChargingReserve } from '../../../server/src/analysis/charging.ts';
import { soakPressureNeeded } from '../../../server/src/analysis/soak.ts';
import { checkText } from '../../../server/src/checking/checked.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';

const stageOf = (text: string) => checkText(text, noHouse).plan[0];

it('the booster has what the air at the highest place leaves over the manifold', () => {
  const stage = stageOf(`format: 2
site: { altitude: 1500 m }
engine: { idle: 700 rpm, idle-manifold-pressure: 38 kPa }
stages: [{ name: now }]
brakes: { booster: vacuum }
`);
  // ISO 2533:1975, table: 845.56 hPa at 1,500 m, from memory
  expect(stage?.know(boosterVacuum)).toBeCloseTo(84556 - 38000, -2);
});

it('hot gasoline after a stop is held liquid by its vapor pressure less the air', () => {
  const stage = stageOf(`format: 2
site: { altitude: 0 m }
fuel: { grade: gasoline, vapor-pressure: 9 psi }
stages: [{ name: now }]
fuel-system: { holding: { held-pressure: 30 psi, soak-temperature: 176 degF } }
`);
  // AP-42, 5th ed., figure 7.1-14b, slope 3, RVP 9 at 176 degF: 29.82 psi absolute, by a script of its own, less 14.70 psi
  expect((stage?.know(soakPressureNeeded) ?? 0) / 6894.757).toBeCloseTo(15.12, 1);
});

it('the alternator at hot idle has left what all that runs leaves of it', () => {
  const stage = stageOf(readFileSync('samples/loom-wagon.build.yaml', 'utf8'));
  // 85 A less pump 9, fan 18, lamps and the rest 32, computer 15
  expect(stage?.know(idleChargingReserve)).toBeCloseTo(11, 6);
});
