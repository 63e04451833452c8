import { analyze } from '../../../server/src/analysis/analysis.ts';
import { checkSheet } from '../../../server/src/checking/checked.ts';
import type { Finding } from '../../../server/src/checking/finding.ts';
import { identities } from '../../../server/src/checking/identity.ts';
import { judge } from '../../../server/src/checking/judge.ts';
import { Choosing, type Trial, type Values } from '../../../server/src/fit/choosing.ts';
import { valuesWith } from '../../../server/src/fit/slot-values.ts';
import type { BuildSheet } from '../../../server/src/generated/build-sheet.ts';
import { rules } from '../../../server/src/generated/rules.ts';
import { validateSheet } from '../../../server/src/generated/validate.js';
import { readText } from '../../../server/src/sheet/read.ts';
import { root } from '../../../server/src/sheet/schema.ts';
import type { ShelfPart } from '../../../server/src/sheet/shelf.ts';
import type { Slot } from '../../../server/src/sheet/slots.ts';
import { open, PARTS, SHEET, shop } from '../catalog/shop.ts';

/** What parts are tried in, for a sheet and the text of a catalog. */
export function choosingFor(sheet: string, catalog: string): Choosing {
  const service = shop({ [PARTS]: catalog });
  open(service, SHEET, sheet);
  const { house } = service.workspace.houseFor(SHEET);
  return new Choosing(checkSheet(readText<BuildSheet>(sheet, root, validateSheet), house), rules);
}

/** All rules asked about values from the beginning, with nothing taken over from anywhere. */
export function judged({ build }: Choosing, values: Values): Trial {
  const { house, unread, assumed } = build;
  const plan = analyze(values, house, [], unread, assumed);
  const { findings } = judge(values, plan, house);
  const grave = findings.filter(({ found }) => found !== 'plan/over-budget');
  return { values, plan, findings: grave, errors: grave.filter(({ severity }) => severity === 'error') };
}

/** The identities, stage by stage, of errors that are not there before. */
export function newErrors(before: readonly Finding[], after: readonly Finding[]): string[] {
  const known = new Set(before.flatMap(identities));
  return after.flatMap(identities).filter((one) => !known.has(one));
}

/** A build's values with a part in each slot, or with nothing in it. */
export function filled({ build }: Choosing, slots: readonly Slot[], parts: readonly (ShelfPart | undefined)[]): Values {
  return slots.reduce((values, slot, index) => valuesWith(values, slot, parts[index]), build.values);
}

/** Every way to take one of each list. */
export function product<One>(lists: readonly (readonly One[])[]): One[][] {
  return lists.reduce<One[][]>((ways, list) => ways.flatMap((way) => list.map((one) => [...way, one])), [[]]);
}
