import type { Checked } from '../checking/checked.ts';
import { type PlacedFinding, placed } from '../checking/finding.ts';
import { lastingIdentities, lastingIdentity, problemIdentity } from '../checking/identity.ts';
import { offeredRepairs } from '../checking/repair.ts';
import { entryAt, pathText } from '../sheet/entry.ts';
import { fixesThatHold, type Read } from '../sheet/fixes-that-hold.ts';
import type { Sheet } from '../sheet/read.ts';
import { type Diagnosis, findingDiagnosis, onceEach, problemDiagnosis } from './diagnostics.ts';

/** What is told of a text where it is told whole, as in a terminal: a diagnosis that can be known again later. */
export type Told = Diagnosis & {
  /** The field it is about, as the text has it. */
  field: string;
  /** The stages it holds in, by name; none, if it is about the sheet. */
  stages: readonly string[];
  /** What it is known by in another state of the text. */
  identity: string;
  /** The same, one for each stage. */
  identities: readonly string[];
  /** The titles of the repairs that hold; none, if they were not asked for. */
  repairs: readonly string[];
  /** Why the sheet accepts it, if it does. */
  accepted?: string;
};

/** Everything that is wrong with a sheet, and what it accepts with a reason. With `read` the repairs are tried. */
export function toldOf(uri: string, checked: Checked, read?: Read): Told[] {
  const { sheet, findings, accepted } = checked;
  const acceptedTold = accepted.map(({ finding, reason }) => ({
    ...findingTold(uri, checked, placed(sheet, finding), false),
    accepted: reason,
  }));
  return onceEach<Told>([
    ...problemsTold(uri, sheet, read),
    ...findings.map((finding) => findingTold(uri, checked, finding, read !== undefined)),
    ...acceptedTold,
  ]);
}

function findingTold(uri: string, checked: Checked, finding: PlacedFinding, isRepaired: boolean): Told {
  const { sheet, plan } = checked;
  const names = plan.map(({ name }) => name);
  return {
    ...findingDiagnosis(uri, sheet.text, finding),
    field: pathText(finding.path),
    stages: finding.stages.map((stage) => names[stage] ?? String(stage + 1)),
    identity: lastingIdentity(finding, sheet.values, names),
    identities: lastingIdentities(finding, sheet.values, names),
    repairs: isRepaired ? offeredRepairs(checked, finding).map(({ title }) => title) : [],
  };
}

/** What is wrong with a text itself, of sheets and house rules alike. */
export function problemsTold(
  uri: string,
  sheet: Pick<Sheet<unknown>, 'text' | 'root' | 'values' | 'problems'>,
  read?: Read,
): Told[] {
  return sheet.problems.map((problem) => {
    const { path } = entryAt(sheet.root, problem.range.start);
    const identity = problemIdentity(sheet, problem);
    return {
      ...problemDiagnosis(uri, sheet.text, problem),
      field: pathText(path),
      stages: [],
      identity,
      identities: [identity],
      repairs: read ? fixesThatHold(sheet, problem, read).map(({ title }) => title) : [],
    };
  });
}
