import type { StageAnalysis } from '../analysis/analysis.ts';
import { isKnown, type Term } from '../analysis/figure.ts';
import { figures } from '../analysis/figures.ts';
import { headlines } from '../analysis/headlines.ts';
import { absentIn } from '../analysis/worksheet.ts';
import { type Entry, entryAt, pathText } from '../sheet/entry.ts';
import type { Path } from '../sheet/schema.ts';
import { formatValue, type Units } from '../units/format.ts';
import { inUnits } from '../units/sentence.ts';

/** The entry that is explained at an offset; the name of a stage stands for the stage. */
export function describedEntry(root: Entry, offset: number): Entry | undefined {
  const entry = entryAt(root, offset);
  const [section, index, field] = entry.path;
  if (section !== 'stages' || field !== 'name') return entry.path.length ? entry : undefined;
  const stages = root.children.find(({ path }) => path[0] === section);
  const stage = stages?.children.find(({ path }) => path[1] === index);
  return stage && { ...stage, key: entry.value };
}

/** One stage for a field of that stage, else all of them. */
export function stagesFor(path: Path, plan: readonly StageAnalysis[]): readonly StageAnalysis[] {
  const index = path[0] === 'stages' ? path[1] : undefined;
  return typeof index === 'number' ? plan.filter((stage) => stage.index === index) : plan;
}

/** Figures at home on the field or computed directly from it, the ones to read first before the others. */
export function figureIds(entry: Entry, stages: readonly StageAnalysis[]): string[] {
  const home = homePath(entry.path);
  const here = pathText(entry.path);
  const ids = new Set<string>();
  for (const stage of stages) {
    for (const node of figures) {
      if (!isKnown(stage.see(node))) continue;
      if (node.home.includes(home as never) || isAmong(stage.inputsOf(node), here)) ids.add(node.id);
    }
  }
  const first = headlines[home] ?? [];
  return [...first.filter((id) => ids.has(id)), ...[...ids].filter((id) => !(first as readonly string[]).includes(id))];
}

function isAmong(inputs: readonly Term[], field: string): boolean {
  return inputs.some((input) => input.field !== undefined && pathText(input.field) === field);
}

/** The path as figures name their home: without numbers and without the stage whose change it is. */
export function homePath(path: Path): string {
  const steps = path.filter((step) => typeof step === 'string');
  const inChanges = steps[0] === 'stages' && steps[1] === 'changes';
  return (inChanges ? steps.slice(2) : steps).join('.');
}

/** What a figure at home on a field lacks, or why it is impossible. */
export type Missing = { name: string; lacks: readonly string[]; impossible?: string };

/** The figures at home on a field that cannot be had in some stage. */
export function missingAt(entry: Entry, stages: readonly StageAnalysis[], units: Units): Missing[] {
  const home = homePath(entry.path);
  const atHome = figures.filter((node) => node.home.includes(home as never));
  const found = new Map<string, Missing>();
  for (const stage of stages) {
    for (const node of atHome) {
      const absent = absentIn(stage.see(node));
      if (!absent || absent.moot || (!absent.impossible && absent.lacks.length === 0)) continue;
      const { name } = node;
      const { lacks, impossible: reason } = absent;
      const impossible = reason && inUnits(reason, (value, dimension) => formatValue(value, dimension, units));
      found.set(`${name} ${impossible ?? lacks.join()}`, { name, lacks, ...(impossible && { impossible }) });
    }
  }
  return [...found.values()];
}
