import type { StageAnalysis } from '../analysis/analysis.ts';
import { type Absent, isKnown } from '../analysis/figure.ts';
import type { Node } from '../analysis/node.ts';
import type { Entry } from '../analysis/worksheet.ts';
import { pathText } from '../sheet/entry.ts';
import { type FieldPath, fieldSchema, type Path, stepsOf, valueAt } from '../sheet/path.ts';
import { type Differences, isSection } from './differences.ts';

type Plan = readonly StageAnalysis[];

/** What a rule looked at while it was asked, so that it is asked again only when that differs. */
export class Watch {
  private readonly fields: { stage: number; path: string; isUnread: boolean }[] = [];
  private readonly places: { stage: number; path: FieldPath; place: string }[] = [];
  private readonly entries: { stage: number; entry: Entry }[] = [];
  readonly lacks: FieldPath[] = [];
  readonly impossible: string[] = [];
  /** What makes a figure impossible, where the rule asked for it to tell it. */
  readonly reasons: string[] = [];
  /** Whether it looked for something that may stand in a part of the text that could not be read. */
  isUnread = false;
  /** Whether it looked at what no other stage has: its name and number, or the other stages. */
  isOfOneStage = false;

  field(analysis: StageAnalysis, path: string, value: unknown): void {
    const isUnread = isUnreadAt(analysis, path, value);
    this.fields.push({ stage: analysis.index, path, isUnread });
    if (isUnread) this.isUnread = true;
    if (value === undefined && isUnknownWhereMissing(path)) this.lacks.push(path as FieldPath);
  }

  place(stage: number, path: FieldPath, place: Path): void {
    this.places.push({ stage, path, place: pathText(place) });
  }

  node(analysis: StageAnalysis, node: Node<unknown>): Entry {
    const entry = analysis.worksheet.entryOf(node);
    this.entries.push({ stage: analysis.index, entry });
    if (!isKnown(entry.outcome)) this.absent(entry.outcome);
    return entry;
  }

  private absent({ unread, moot, lacks, impossible }: Absent): void {
    if (unread) this.isUnread = true;
    if (moot) return;
    this.lacks.push(...lacks);
    if (impossible) this.impossible.push(impossible);
  }

  /**
   * Whether everything it looked at is the same in another plan, so many stages later. `differences`: in what each stage of
   * that plan differs from the stage in which it is known to hold.
   */
  holdsIn(plan: Plan, differences: readonly Differences[], later: number): boolean {
    for (const { stage, path, isUnread } of this.fields) {
      const { fields, isWhole } = differences[stage + later] as Differences;
      if (fields.has(path)) return false;
      const analysis = plan[stage + later] as StageAnalysis;
      if (!isWhole && isUnreadAt(analysis, path, rawAt(analysis, path)) !== isUnread) return false;
    }
    for (const { stage, path, place } of this.places) {
      if (pathText(plan[stage + later]?.sheet.placeOf(path) ?? []) !== place) return false;
    }
    for (const { stage, entry } of this.entries) {
      if (plan[stage + later]?.worksheet.entryOf(entry.node) !== entry) return false;
    }
    return true;
  }
}

function rawAt({ sheet }: StageAnalysis, path: string): unknown {
  const steps = stepsOf(path as FieldPath);
  return steps[0] === 'stages' ? valueAt(sheet.stage, steps, 1) : valueAt(sheet.values, steps);
}

/** Whether a field without a value may stand in a part of the text that could not be read. */
function isUnreadAt({ sheet }: StageAnalysis, path: string, value: unknown): boolean {
  return value === undefined && !sheet.isWhole && sheet.isUnread(path as FieldPath);
}

/** Whether a field that is not written leaves a question open; of others the schema says what missing means. */
function isUnknownWhereMissing(path: string): boolean {
  const schema = fieldSchema(path as FieldPath);
  return schema !== undefined && schema.absent === undefined;
}

/** Takes note of a field that was read. */
type Told = (path: string, value: unknown) => void;

/** A section as it is, with every field that is read of it told. */
export function watched<T extends object>(section: T, path: string, told: Told): T {
  return new Proxy(section, new Watching(path, told)) as T;
}

/** Paths by section and name, so that they are put together once. */
const paths = new Map<string, Map<string, string>>();

class Watching implements ProxyHandler<object> {
  private readonly sections = new Map<string, object>();
  private readonly paths: Map<string, string>;

  constructor(
    private readonly path: string,
    private readonly told: Told,
  ) {
    this.paths = paths.get(path) ?? new Map();
    paths.set(path, this.paths);
  }

  get(target: object, name: string | symbol): unknown {
    const value = (target as Record<string | symbol, unknown>)[name];
    if (typeof name === 'symbol') return value;
    const path = this.pathOf(name);
    this.told(path, value);
    return isSection(value) ? this.section(name, path, value) : value;
  }

  ownKeys(target: object): (string | symbol)[] {
    this.told(this.path, target);
    return Reflect.ownKeys(target);
  }

  private pathOf(name: string): string {
    let path = this.paths.get(name);
    if (path === undefined) {
      path = this.path ? `${this.path}.${name}` : name;
      this.paths.set(name, path);
    }
    return path;
  }

  private section(name: string, path: string, value: object): object {
    let section = this.sections.get(name);
    if (!section) {
      section = watched(value, path, this.told);
      this.sections.set(name, section);
    }
    return section;
  }
}
