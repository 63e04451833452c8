import { describe, expect, it } from 'vitest';
import { isKnown } from '../../../server/src/analysis/figure.ts';
import { limit } from '../../../server/src/analysis/node.ts';
import { checkText } from '../../../server/src/checking/checked.ts';
import { fieldSchema } from '../../../server/src/sheet/path.ts';
import { isQuantity } from '../../../server/src/units/quantity.ts';
import { readQuantity } from '../../../server/src/units/read.ts';
import { type File, Workspace } from '../../../server/src/workspace/workspace.ts';

const SHEET = 'file:///shop/bay/x.build.yaml';
const file = (text: string): File => ({ kind: 'text', text });
const duty = (share: number) => `limits: { largest-duty: ${share} % }\n`;

/** The largest duty that a sheet is held to, with house rules at some places; in per cent. */
function largestDuty({
  sheet = '',
  houses = {},
  roots = ['file:///shop'],
}: {
  sheet?: string;
  houses?: Record<string, string>;
  roots?: string[];
}): number {
  const workspace = new Workspace(new Set());
  workspace.roots = roots;
  workspace.put({ uri: SHEET, kind: 'sheet', version: 1, text: '' });
  for (const uri of workspace.wanted()) {
    const text = houses[uri];
    workspace.give(uri, text === undefined ? { kind: 'absent' } : file(text), workspace.doubts);
  }
  const { house } = workspace.houseFor(SHEET);
  const [stage] = checkText(`format: 1\n${sheet}`, house).plan;
  const outcome = stage?.see(limit('largest-duty'));
  return outcome && isKnown(outcome) ? Math.round(outcome.value * 100) : Number.NaN;
}

const far = 'file:///shop/build-sheet.config.yaml';
const near = 'file:///shop/bay/build-sheet.config.yml';

describe('a limit', () => {
  it('is that of the sheet over that of the near folder over that of the far folder over the usual one', () => {
    const both = { [far]: duty(71), [near]: duty(72) };
    expect(largestDuty({ sheet: duty(73), houses: both })).toBe(73);
    expect(largestDuty({ houses: both })).toBe(72);
    expect(largestDuty({ houses: { [far]: duty(71) } })).toBe(71);
    const usual = readQuantity(String(fieldSchema('limits.largest-duty')?.default), 'ratio');
    expect(largestDuty({})).toBe(isQuantity(usual) ? Math.round(usual.value * 100) : undefined);
  });

  it('is that of the far folder where the near one says nothing of it', () => {
    expect(largestDuty({ houses: { [far]: duty(71), [near]: 'units: si\n' } })).toBe(71);
    expect(largestDuty({ houses: { [far]: duty(71), [near]: 'limits: { largest-duty: }\n' } })).toBe(71);
  });

  it('is that of the outermost of nested roots where a root within says nothing of it', () => {
    const houses = { [far]: duty(71) };
    expect(largestDuty({ houses, roots: ['file:///shop/bay', 'file:///shop'] })).toBe(71);
    expect(largestDuty({ houses, roots: ['file:///shop/bay'] })).not.toBe(71);
    expect(largestDuty({ houses: { ...houses, [near]: duty(72) }, roots: ['file:///shop/bay', 'file:///shop'] })).toBe(
      72,
    );
  });
});
