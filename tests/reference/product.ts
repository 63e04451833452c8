import { houseFor, readHouse } from '../../server/src/houses.ts';
import { checkText } from '../../server/src/rules/checked.ts';

/** A figure as the product computes it, in SI; bounds only where a tolerance moves it. */
export type ProductFigure = { value: number; low?: number; high?: number };

/** What the product finds, in words of its own rule ids. */
export type ProductFinding = {
  rule: string;
  severity: string;
  message: string;
  field: string;
  stages: readonly string[];
};

/** The only door of these tests to the product: the sheet `text` under house rules, the nearest folder's first. */
function checked(text: string, houses: readonly string[] = []) {
  const folders = houses.map((_, depth) => `file:///yard${'/in'.repeat(houses.length - 1 - depth)}`);
  const rules = new Map(
    houses.map((house, depth) => [`${folders[depth]}/build-sheet.config.yaml`, readHouse(house).values]),
  );
  const house = houseFor(`${folders[0] ?? 'file:///yard'}/one.build.yaml`, ['file:///yard'], (uri) => rules.get(uri));
  return checkText(text, house);
}

/** The figures of each stage by the stage's name. */
export function figuresOf(text: string, houses?: readonly string[]): Map<string, Map<string, ProductFigure>> {
  const { plan } = checked(text, houses);
  return new Map(plan.map((stage) => [stage.name, stage.figures]));
}
