import { checkText } from '../../server/src/checking/checked.ts';
import { rules } from '../../server/src/generated/rules.ts';
import { Workspace } from '../../server/src/workspace/workspace.ts';

/** A figure as the product computes it, in SI; bounds only where a tolerance moves it. */
export type ProductFigure = { value: number; low?: number; high?: number };

/** A finding: its rule, how heavy it is, and the field it stands at. */
export type ProductFinding = { rule: string; severity: string; field: string; message: string };

/** The figures of each stage by the stage's name. `houses`: texts of house rules, the nearest folder's first. */
export function figuresOf(text: string, houses?: readonly string[]): Map<string, ReadonlyMap<string, ProductFigure>> {
  const { plan } = checked(text, houses);
  return new Map(plan.map((stage) => [stage.name, stage.figures]));
}

/** All that the product finds in a text, also in the text itself. */
export function findingsOf(text: string, houses?: readonly string[]): ProductFinding[] {
  const { sheet, findings } = checked(text, houses);
  return [
    ...sheet.problems.map(({ code, message }) => ({ rule: code, severity: 'error', field: '', message })),
    ...findings.map(({ rule, severity, path, message }) => ({ rule, severity, field: path.join('.'), message })),
  ];
}

/** Fields that rules lack to be judged. */
export function questionsOf(text: string, houses?: readonly string[]): string[] {
  return [...new Set(checked(text, houses).open.flatMap(({ lacks }) => lacks))];
}

const ROOT = 'file:///yard';

function checked(text: string, houses: readonly string[] = []) {
  const workspace = new Workspace(new Set(rules.map(({ id }) => id)));
  workspace.roots = [ROOT];
  const folders = houses.map((_, depth) => `${ROOT}${'/inner'.repeat(houses.length - 1 - depth)}`);
  houses.forEach((house, depth) => {
    const uri = `${folders[depth]}/build-sheet.config.yaml`;
    workspace.put({ uri, kind: 'house', version: 1, text: house });
  });
  return checkText(text, workspace.houseFor(`${folders[0] ?? ROOT}/one.build.yaml`).house);
}
