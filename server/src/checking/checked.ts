import { analyze, type StageAnalysis } from '../analysis/analysis.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import { rules as allRules } from '../generated/rules.ts';
import { validateSheet } from '../generated/validate.js';
import { type House, ofSheet } from '../sheet/house.ts';
import { readText, type Sheet } from '../sheet/read.ts';
import { root } from '../sheet/schema.ts';
import { withLogs } from '../sheet/with-logs.ts';
import { withParts } from '../sheet/with-parts.ts';
import type { Answers, Fault } from './ask.ts';
import { type Accepted, type OpenCheck, type PlacedFinding, placed } from './finding.ts';
import { judge, type Verdict } from './judge.ts';
import { settledOverRanges } from './over-range.ts';
import type { Rule } from './rule.ts';

/** One version of a text, read, computed and checked once for every feature. */
export type Checked = {
  sheet: Sheet;
  plan: readonly StageAnalysis[];
  house: House;
  verdict: Verdict;
  findings: readonly PlacedFinding[];
  accepted: readonly Accepted[];
  open: readonly OpenCheck[];
  faults: readonly Fault[];
};

/** Reads, computes and checks a text by the rules of a house. */
export function checkText(text: string, house: House): Checked {
  return checkSheet(readText<BuildSheet>(text, root, validateSheet), house);
}

/** Computes and checks a sheet; of an earlier version of the same text what does not differ is taken over. */
export function checkSheet(
  read: Sheet,
  folder: House,
  before?: Pick<Checked, 'sheet' | 'plan' | 'verdict' | 'house'>,
  rules: readonly Rule[] = allRules,
): Checked {
  const sheet = withLogs(withParts(read, folder.shelf, before?.sheet), folder.logs);
  const house = ofSheet(folder, sheet.values);
  const known = before && before.house === house ? before : undefined;
  const plan = analyze(sheet.values, house, known?.plan, sheet.unread);
  const sameStages =
    known?.plan.length === plan.length && known.plan.every(({ name }, index) => name === plan[index]?.name);
  const settle = (answers: Answers) => settledOverRanges(sheet, plan, house, answers);
  const verdict = judge(sheet.values, plan, house, sameStages ? known?.verdict : undefined, rules, settle);
  for (const { worksheet } of plan) worksheet.settle();
  const findings = verdict.findings
    .map((finding) => placed(sheet, finding))
    .toSorted((one, other) => one.range.start - other.range.start);
  const { accepted, open, faults } = verdict;
  return { sheet, plan, house, verdict, findings, accepted, open, faults };
}
