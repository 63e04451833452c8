import type { Diagnosis } from '../../server/src/features/diagnostics.ts';
import type { OutlineItem } from '../../server/src/features/symbols.ts';
import { plainText } from '../../server/src/report/plain-text.ts';
import type { Service } from '../../server/src/service.ts';
import { must, mustBeInside, mustBePlain } from './must.ts';

/** All that an editor is told of a text without asking for actions. */
export function answers(service: Service, uri: string, cursor: number) {
  return {
    diagnoses: service.diagnose(uri),
    faults: service.faults(uri),
    open: service.openChecks(uri),
    hover: service.explain(uri, cursor),
    completion: service.complete(uri, cursor),
    outline: service.outline(uri),
    folds: service.folds(uri),
    links: service.links(uri),
  };
}

/** @throws Error where an answer does not keep what is promised of all answers */
export function judgeAnswers(told: ReturnType<typeof answers>, text: string, cursor: number): void {
  must(told.faults.length === 0, `faults: ${told.faults.map(({ where, error }) => `${where}: ${error}`).join('; ')}`);
  for (const diagnosis of told.diagnoses) judgeDiagnosis(diagnosis, text);
  for (const { impossible } of told.open) for (const reason of impossible) mustBePlain(reason, text);
  if (told.hover) {
    mustBeInside(text, told.hover.range, 'hover');
    mustBePlain(plainText(told.hover.page), text);
  }
  if (told.completion) {
    const { replace, proposals } = told.completion;
    mustBeInside(text, replace, 'completion');
    must(replace.start <= cursor && cursor <= replace.end, 'completion away from the cursor');
    must(!/[\r\n]/.test(text.slice(replace.start, replace.end)), 'completion over several lines');
    for (const { label, detail, insert } of proposals) mustBePlain(`${label} ${detail} ${insert}`, text);
  }
  judgeOutline(told.outline, { start: 0, end: text.length }, text);
  for (const fold of told.folds) mustBeInside(text, fold, 'fold');
  for (const { range } of told.links) mustBeInside(text, range, 'link');
}

function judgeDiagnosis({ code, message, range, related }: Diagnosis, text: string): void {
  mustBeInside(text, range, code);
  must(range.start < range.end || text === '', `${code}: nothing marked`);
  mustBePlain(message, text);
  for (const other of related) {
    mustBeInside(text, other.place.range, code);
    mustBePlain(other.message, text);
  }
}

function judgeOutline(items: readonly OutlineItem[], around: { start: number; end: number }, text: string): void {
  for (const { name, detail, range, selection, children } of items) {
    mustBeInside(text, range, `outline of ${name}`);
    mustBeInside(text, selection, `outline of ${name}`);
    must(around.start <= range.start && range.end <= around.end, `outline of ${name}: outside its parent`);
    must(range.start <= selection.start && selection.end <= range.end, `outline of ${name}: selection outside`);
    mustBePlain(`${name} ${detail ?? ''}`, text);
    judgeOutline(children, range, text);
  }
}
