import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { workAt } from '../../../server/src/features/work.ts';
import { plainText } from '../../../server/src/report/plain-text.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { entryOf } from '../../../server/src/sheet/read.ts';

const samples = readdirSync('samples').filter((file) => file.endsWith('.build.yaml'));

describe.each(samples)('%s', (file) => {
  it('explains every figure of every stage in the work of the stage: formula, inputs, source, assumptions', () => {
    const { sheet, plan } = checkText(readFileSync(`samples/${file}`, 'utf8'), noHouse);
    for (const { index, figures } of plan) {
      const name = entryOf(sheet, ['stages', index, 'name']);
      const text = plainText(workAt(sheet.root, name?.value.start ?? 0, plan, 'us')?.page ?? []);
      for (const figure of figures.values()) {
        expect(text, figure.id).toContain(`${figure.symbol} = ${figure.formula}`);
        expect(text, figure.id).toContain(`- source: ${figure.source}`);
        for (const note of figure.notes) expect(text, figure.id).toContain(`- note: ${note}`);
        for (const input of figure.inputs) {
          expect(text, figure.id).toContain(`- ${input.symbol} ${input.name}: `);
          if (input.assumed) expect(text, figure.id).toContain(`(assumed: ${input.assumed})`);
        }
      }
    }
  });
});
