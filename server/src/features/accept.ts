import type { Checked } from '../checking/checked.ts';
import { editsFor } from '../sheet/edit.ts';
import { isUnknown } from '../sheet/entry.ts';
import type { TextEdit } from '../sheet/problem.ts';
import { entryOf, type Sheet } from '../sheet/read.ts';
import { applyEdits } from '../text/apply-edits.ts';
import { difference } from '../text/difference.ts';
import { type Range, touches } from '../text/place.ts';
import { type Diagnosis, findingDiagnosis } from './diagnostics.ts';
import { sheetWith } from './write-answer.ts';

/** A finding that can be accepted: its rule, the stage where it holds in one alone, and how it is told. */
export type Acceptable = { rule: string; stage?: string; mends: Diagnosis };

/** What is accepted, and why. */
export type Accepting = { rule: string; stage?: string; reason?: string };

/** Most findings that are listed to be accepted at once. */
const MOST = 20;

/** The findings in a stretch of a sheet that can be accepted, each rule once; those about acceptance itself cannot. */
export function acceptableAt(uri: string, { sheet, findings, plan }: Checked, range: Range): Acceptable[] {
  const here = findings.filter((finding) => touches(finding.range, range) && finding.path[0] !== 'silence');
  const byRule = new Map<string, Acceptable>();
  for (const finding of here.slice(0, MOST)) {
    const { rule, stages } = finding;
    const stage = plan.length > 1 && stages.length === 1 ? plan[stages[0] as number]?.name : undefined;
    const mends = findingDiagnosis(uri, sheet.text, finding);
    if (!byRule.has(rule)) byRule.set(rule, { rule, ...(stage !== undefined && { stage }), mends });
  }
  return [...byRule.values()];
}

/** The edits that accept a rule's findings for a reason; without one its place is left empty, and nothing is accepted yet. */
export function acceptance(
  { sheet }: Pick<Checked, 'sheet'>,
  { rule, stage, reason }: Accepting,
  read: (text: string) => Sheet,
): readonly TextEdit[] {
  const entry = { rule, ...(stage !== undefined && { stage }), reason: reason?.trim() || null };
  const list = entryOf(sheet, ['silence']);
  if (list && !isUnknown(list)) return editsFor(sheet, [{ set: ['silence', list.children.length], to: entry }]) ?? [];
  const begun = list ? sheet : sheetWith(sheet, ['silence'], null, read);
  const edits = begun && editsFor(begun, [{ set: ['silence'], to: [entry] }]);
  return begun && edits ? difference(sheet.text, applyEdits(begun.text, edits)) : [];
}
