import { Parser } from 'yaml';
import { type Checked, checkText } from '../../server/src/checking/checked.ts';
import type { PlacedFinding } from '../../server/src/checking/finding.ts';
import type { Choice, Offer } from '../../server/src/features/repairs.ts';
import { Service } from '../../server/src/service.ts';
import { applyEdits } from '../../server/src/sheet/edit.ts';
import { pathText } from '../../server/src/sheet/entry.ts';
import { noHouse } from '../../server/src/sheet/house.ts';
import { inOneGo } from '../../server/src/text/steps.ts';
import { must, mustBePlain, mustFollow } from './must.ts';

/** @throws Error where an action of the text, or fixing all of it, does not keep what is promised of actions */
export function judgeActions(service: Service, uri: string, text: string): void {
  const before = checkText(text, noHouse);
  for (const offer of inOneGo(service.repairs(uri, { start: 0, end: text.length }))) {
    mustBePlain(offer.title, text);
    const after = chosen(service, uri, text, offer);
    if (after === text) continue;
    const checked = checkText(after, noHouse);
    if (offer.choice) mustKeepComments(offer.title, before, checked);
    if (offer.choice && 'finding' in offer.choice) mustHold(offer.title, offer.choice.finding, before, checked);
  }
  judgeFixAll(before);
}

function chosen(service: Service, uri: string, text: string, { title, edits, choice }: Offer): string {
  const made = edits ?? (choice ? inOneGo(service.resolve(uri, choice)) : []);
  mustFollow(text, made, title);
  return applyEdits(text, made);
}

/**
 * What is mended is found in fewer stages or places, or no longer at that field, where it hid another of the same rule; and
 * no error of any rule in more than before.
 */
function mustHold(title: string, index: number, before: Checked, after: Checked): void {
  const errors = ({ findings }: Checked) => findings.filter(({ severity }) => severity === 'error');
  for (const rule of new Set(errors(after).map(({ found }) => found)))
    must(extent(errors(after), rule) <= extent(errors(before), rule), `${title}: brings ${rule}`);
  const mended = before.findings[index] as PlacedFinding;
  const isMended = ({ found, path, stages }: PlacedFinding) =>
    found === mended.found &&
    pathText(path) === pathText(mended.path) &&
    mended.stages.every((stage) => stages.includes(stage));
  const isFewer = extent(after.findings, mended.found) < extent(before.findings, mended.found);
  must(isFewer || !after.findings.some(isMended), `${title}: ${mended.found} stays`);
}

function extent(findings: readonly PlacedFinding[], rule: string): number {
  return findings
    .filter(({ found }) => found === rule)
    .reduce((sum, { stages }) => sum + Math.max(1, stages.length), 0);
}

function mustKeepComments(title: string, before: Checked, after: Checked): void {
  if (before.sheet.broken) return;
  const kept = comments(after.sheet.text);
  for (const comment of comments(before.sheet.text)) {
    const index = kept.indexOf(comment);
    must(index >= 0, `${title}: loses ${comment}`);
    kept.splice(index, 1);
  }
}

/** A lone carriage return ends a line for an editor, though not for YAML. */
function comments(text: string): string[] {
  const found: string[] = [];
  JSON.stringify([...new Parser().parse(text.replaceAll('\r', '\n'))], (_, token) => {
    if (token?.type === 'comment') found.push(token.source.trim());
    return token;
  });
  return found;
}

/** Fixing all a second time changes nothing. */
function judgeFixAll(before: Checked): void {
  const uri = 'file:///fix-all.build.yaml';
  const all: Choice = { all: true };
  const fixed = (text: string) => {
    const service = new Service();
    service.workspace.put({ uri, kind: 'sheet', version: 1, text });
    return chosen(service, uri, text, { title: 'fix all', preferred: false, mends: [], choice: all });
  };
  const once = fixed(before.sheet.text);
  mustKeepComments('fix all', before, checkText(once, noHouse));
  must(fixed(once) === once, 'fix all: a second time changes more');
}
