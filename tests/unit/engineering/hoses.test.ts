import { describe, expect, it } from 'vitest';
import { type LineClass, lineClasses, lineObjections } from '../../../server/src/engineering/hoses.ts';

const PSI = 6894.757293168;
const gasoline = { pressure: 58 * PSI, ethanolShare: 0.1, methanolShare: 0, inTank: false };

function named(name: string): LineClass {
  const found = lineClasses.find((line) => line.name === name);
  if (!found) throw new Error(name);
  return found;
}

describe('classes of fuel line', () => {
  it('keep carburetor hose away from injection pressure', () => {
    expect(lineObjections(named('SAE J30 R7'), gasoline)).toEqual(['pressure']);
    expect(lineObjections(named('SAE J30 R9'), gasoline)).toEqual([]);
    expect(lineObjections(named('PTFE-lined braided hose'), { ...gasoline, pressure: 90 * PSI })).toEqual([]);
  });

  it('keep hose out of the tank that is not made to lie in fuel', () => {
    expect(lineObjections(named('SAE J30 R9'), { ...gasoline, inTank: true })).toEqual(['submersion']);
  });

  it('keep alcohol away from what it attacks', () => {
    const e85 = { ...gasoline, ethanolShare: 0.85 };
    expect(lineObjections(named('aluminum tube'), e85)).toEqual(['ethanol']);
    expect(lineObjections(named('SAE J30 R9'), e85)).toEqual(['ethanol']);
    expect(lineObjections(named('SAE J30 R12'), e85)).toEqual([]);
    expect(lineObjections(named('SAE J30 R14'), e85)).toEqual(['pressure']);
    const methanol = { ...gasoline, ethanolShare: 0, methanolShare: 1 };
    expect(lineObjections(named('SAE J30 R9'), methanol)).toEqual(['methanol']);
    expect(lineObjections(named('stainless steel tube'), methanol)).toEqual([]);
  });

  it('stand less than the best of them are printed with', () => {
    for (const { name, workingPressure, printedUpTo } of lineClasses)
      expect(printedUpTo ?? Number.POSITIVE_INFINITY, name).toBeGreaterThan(workingPressure);
  });

  it('name every objection at once', () => {
    const worst = { pressure: 200 * PSI, ethanolShare: 1, methanolShare: 0.1, inTank: true };
    expect(lineObjections(named('SAE J30 R6'), worst)).toEqual(['pressure', 'ethanol', 'methanol', 'submersion']);
  });

  it('each say where their values come from', () => {
    for (const line of lineClasses) expect(line.source).not.toBe('');
    expect(new Set(lineClasses.map((line) => line.name)).size).toBe(lineClasses.length);
  });

  it('refuse what is no use of a line', () => {
    const r9 = named('SAE J30 R9');
    expect(() => lineObjections(r9, { ...gasoline, pressure: Number.NaN })).toThrow('The pressure in the line');
    expect(() => lineObjections(r9, { ...gasoline, ethanolShare: 1.5 })).toThrow('The share of ethanol');
    expect(() => lineObjections(r9, { ...gasoline, methanolShare: -0.1 })).toThrow('The share of methanol');
  });
});
