import { analyze, type StageAnalysis } from '../analysis/analysis.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import { validateSheet } from '../generated/validate.js';
import type { House } from '../sheet/house.ts';
import { readText, type Sheet } from '../sheet/read.ts';
import { root } from '../sheet/schema.ts';
import { check, type Verdict } from './check.ts';

/** One version of a text, read, computed and checked once for every feature. */
export type Checked = Verdict & { sheet: Sheet; plan: StageAnalysis[]; house: House };

/** Reads, computes and checks a text by the rules of a house. */
export function checkText(text: string, house: House): Checked {
  return checkSheet(readText<BuildSheet>(text, root, validateSheet), house);
}

/** Computes and checks a sheet by the rules of a house. */
export function checkSheet(sheet: Sheet, house: House): Checked {
  const plan = analyze(sheet, house);
  return { sheet, plan, ...check(sheet, plan, house), house };
}
