import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { olderFormat, upgradeEdits } from '../../../server/src/features/upgrade.ts';
import { applyEdits } from '../../../server/src/sheet/edit.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';

const upgraded = (text: string) => applyEdits(text, upgradeEdits(checkText(text, noHouse)));

/** Values of all figures, stage by stage. */
function figures(text: string) {
  return checkText(text, noHouse).plan.map((stage) =>
    Object.fromEntries([...stage.figures].map(([id, { value }]) => [id, value])),
  );
}

const old = `# head
format: 1 # as begun
site: { altitude: 2400 m, hottest: 35 degC }
engine: { cylinders: 8, displacement: 5.0 L, compression-ratio: 9, idle: 700 rpm, peak-power-speed: 5000 rpm, redline: 5500 rpm }
stages:
  # where it is now
  - name: now
    power: 200 hp # as driven up here
    induction: natural
  - { name: turbo, power: 300 hp, induction: turbo, boost: 8 psi, aftercooler-effectiveness: 60 % }
  - { name: later }
throttle-body: { bores: { quantity: 4, diameter: 44 mm }, rated-depression: 1.5 inHg }
limits: { depression: 1.6 inHg }
`;

const today = `# head
format: 2 # as begun
site: { altitude: 2400 m, hottest: 35 degC }
engine: { cylinders: 8, displacement: 5.0 L, compression-ratio: 9, idle: 700 rpm, peak-power-speed: 5000 rpm, redline: 5500 rpm }
stages:
  # where it is now
  - name: now
    power: 200 hp # as driven up here
    induction: natural
    power-condition: as-driven
  - { name: turbo, power: 300 hp, induction: turbo, boost: 8 psi, intercooler-effectiveness: 60 %, power-condition: as-driven }
  - { name: later }
throttle-body: { bores: { quantity: 4, diameter: 44 mm }, rated-pressure-drop: 1.5 inHg }
limits: { pressure-drop: 1.6 inHg }
`;

describe('the upgrade of a sheet of format 1', () => {
  it('says what power meant and uses the names of today; comments and order stay', () => {
    expect(upgraded(old)).toBe(today);
  });

  it('keeps line endings', () => {
    expect(upgraded(old.replaceAll('\n', '\r\n'))).toBe(today.replaceAll('\n', '\r\n'));
  });

  it('keeps every figure', () => {
    const read = old.replace(', aftercooler-effectiveness: 60 %', '').replace(', rated-depression: 1.5 inHg', '');
    const before = read.replace('limits: { depression: 1.6 inHg }\n', '');
    expect(upgraded(before)).not.toBe(before);
    expect(figures(upgraded(before))).toEqual(figures(before));
  });

  it('is offered where the version stands, and not twice', () => {
    const checked = checkText(old, noHouse);
    expect(olderFormat(checked)).toEqual({ start: old.indexOf('format'), end: old.indexOf(' # as begun') });
    expect(olderFormat(checkText(today, noHouse))).toBeUndefined();
    expect(upgraded(today)).toBe(today);
  });

  it('leaves a broken text alone', () => {
    expect(upgraded('format: 1\nstages: [{ power: 200 hp }\n')).toBe('format: 1\nstages: [{ power: 200 hp }\n');
  });

  it('keeps a condition that is there', () => {
    const text = 'format: 1\nstages:\n  - { power: 200 hp, power-condition: standard }\n';
    expect(upgraded(text)).toBe(text.replace('format: 1', 'format: 2'));
  });
});
