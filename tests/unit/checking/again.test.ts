import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { StageAnalysis } from '../../../server/src/analysis/analysis.ts';
import { isKnown } from '../../../server/src/analysis/figure.ts';
import { figures } from '../../../server/src/analysis/figures.ts';
import type { FigureNode } from '../../../server/src/analysis/node.ts';
import { sourceOf } from '../../../server/src/analysis/source.ts';
import { Worksheet } from '../../../server/src/analysis/worksheet.ts';
import { type Checked, checkSheet } from '../../../server/src/checking/checked.ts';
import type { Rule, Situation } from '../../../server/src/checking/rule.ts';
import { rules } from '../../../server/src/generated/rules.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { wholeSheets } from '../../reference/whole-sheets.ts';
import { samples } from '../analysis/sheets.ts';
import { read } from '../sheet/marked.ts';

function valueIn(stage: StageAnalysis, node: FigureNode): number | undefined {
  const outcome = stage.see(node);
  return isKnown(outcome) ? outcome.value : undefined;
}

/** All that a check says, without the objects it was said with. */
function said({ findings, open, plan }: Checked) {
  return {
    findings: findings.map(({ rule, message, path, severity, range }) => ({ rule, message, path, severity, range })),
    open: open.map(({ rule, lacks, impossible, stages }) => ({ rule, stages, lacks: lacks.toSorted(), impossible })),
    figures: plan.map((stage) => figures.map((node) => valueIn(stage, node))),
  };
}

/** A text with one of its numbers changed, a line dropped, or a line written twice. */
const edited = (text: string): fc.Arbitrary<string> => {
  const lines = text.split('\n');
  const line = fc.nat({ max: lines.length - 1 });
  const withNumber = fc
    .tuple(line, fc.integer({ min: 1, max: 90 }))
    .map(([at, number]) => lines.with(at, (lines[at] as string).replace(/\d+/, String(number))).join('\n'));
  return fc.oneof(
    { weight: 4, arbitrary: withNumber },
    { weight: 1, arbitrary: line.map((at) => lines.toSpliced(at, 1).join('\n')) },
  );
};

describe('a check that takes over what the version before has worked out', () => {
  it.each(samples)('says the same as a fresh one over several edits of %s', (_, text) => {
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat()), (seeds) => {
        let current = text;
        let before = checkSheet(read(current), noHouse);
        for (let round = 0; round < 3; round++) {
          const seed = seeds.next().value;
          current = fc.sample(edited(current), { seed, numRuns: 1 })[0] as string;
          const sheet = read(current);
          before = checkSheet(sheet, noHouse, before);
          expect(said(before)).toEqual(said(checkSheet(sheet, noHouse)));
        }
      }),
      { numRuns: 1, seed: 20 },
    );
  });

  it('tells the place of a field that another stage says now, in the same words', () => {
    const stage = '  - { power: 200 hp, changes: { fuel: { grade: e85 } } }\n';
    const text = (second: string) => `format: 1\nstages:\n${stage}${second}`;
    const version = (second: string) => read(text(second));
    const again = (before: Checked | undefined, second: string) => checkSheet(version(second), noHouse, before);
    const places = ({ plan }: Checked) =>
      [...(plan[1]?.figures.values() ?? [])].flatMap(({ inputs }) => inputs.map(({ field }) => field));
    const inherited = '  - { power: 210 hp }\n';
    const own = stage.replace('200', '210');
    const first = again(undefined, inherited);
    expect(places(again(first, own))).toEqual(places(again(undefined, own)));
    expect(places(again(first, own))).not.toEqual(places(first));
  });
});

describe('a stage that takes over what the stage before has worked out', () => {
  /** Rules that look at the number of the stage and so are asked in each. */
  const askedInEach = rules.map((rule) =>
    'check' in rule
      ? { ...rule, check: (stage: Situation) => (stage.index < 0 ? undefined : rule.check(stage)) }
      : rule,
  );
  const planned = [...samples, ...wholeSheets.map(({ name, text }): [string, string] => [name, text])].filter(
    ([, text]) => (text.match(/^ {2}- (\{ )?name:/gm) ?? []).length > 1,
  );

  it.each(planned)('says the same as one that works it out anew, in %s', (_, text) => {
    const sheet = read(text);
    const shared = checkSheet(sheet, noHouse);
    expect(said(shared)).toEqual(said(checkSheet(sheet, noHouse, undefined, askedInEach)));
    for (const { sheet: stage, index } of shared.plan) {
      const alone = new StageAnalysis(stage, new Worksheet(sourceOf(stage, noHouse)));
      expect(figures.map((node) => shared.plan[index]?.figure(node))).toEqual(
        figures.map((node) => alone.figure(node)),
      );
    }
  });
});

describe('a rule that fails', () => {
  const failing: Rule = {
    id: 'engine/always-fails',
    title: 'A rule with a mistake of ours',
    severity: 'error',
    why: 'Only this test has it.',
    inspect: 'Nothing.',
    remedy: 'Nothing.',
    source: 'none',
    check: () => {
      throw new TypeError('a mistake of ours');
    },
  };

  it('is told as a fault of ours, and every other rule is still asked', () => {
    const [, text] = samples[0] as [string, string];
    const sheet = read(text);
    const checked = checkSheet(sheet, noHouse, undefined, [failing, ...rules]);
    expect(checked.faults.map(({ where }) => where)).toContain('engine/always-fails');
    expect(checked.findings.map(({ message }) => message)).toEqual(
      checkSheet(sheet, noHouse).findings.map(({ message }) => message),
    );
  });
});
