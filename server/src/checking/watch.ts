import type { StageAnalysis } from '../analysis/analysis.ts';
import { type Absent, isKnown } from '../analysis/figure.ts';
import type { Node } from '../analysis/node.ts';
import type { Entry } from '../analysis/worksheet.ts';
import { pathText } from '../sheet/entry.ts';
import { type FieldPath, fieldSchema, isFields, type Path, stepsOf, valueAt } from '../sheet/path.ts';
import type { Differences } from './differences.ts';

type Plan = readonly StageAnalysis[];

/** A field that was read: its value in a stage, and whether it is missed there. */
export type Look = {
  readonly stage: number;
  readonly path: string;
  readonly value: unknown;
  /** Whether it may stand in a part of the text that could not be read. */
  readonly isUnread: boolean;
  /** Whether it leaves a question open. */
  readonly isLacking: boolean;
  /** Whether it is a section of which only what else is told was looked at. */
  readonly isWayIn: boolean;
};

const NONE: readonly never[] = [];

/** What a rule looked at while it was asked, so that it is asked again only when that differs. */
export class Watch {
  private readonly looks: Look[] = [];
  private readonly entries: Entry[] = [];
  /** The stage of each entry. */
  private readonly stages: number[] = [];
  private places: readonly { stage: number; path: FieldPath; place: string }[] = NONE;
  lacks: readonly FieldPath[] = NONE;
  impossible: readonly string[] = NONE;
  /** What makes a figure impossible, where the rule asked for it to tell it. */
  reasons: readonly string[] = NONE;
  /** Whether it looked for something that may stand in a part of the text that could not be read. */
  isUnread = false;
  /** Whether it looked at what no other stage has: its name and number, or the other stages. */
  isOfOneStage = false;

  field(look: Look): void {
    this.looks.push(look);
    if (look.isUnread) this.isUnread = true;
    if (look.isLacking) this.lacks = [...this.lacks, look.path as FieldPath];
  }

  place(stage: number, path: FieldPath, place: Path): void {
    this.places = [...this.places, { stage, path, place: pathText(place) }];
  }

  node(analysis: StageAnalysis, node: Node<unknown>): Entry {
    const entry = analysis.worksheet.entryOf(node);
    this.entries.push(entry);
    this.stages.push(analysis.index);
    if (!isKnown(entry.outcome)) this.absent(entry.outcome);
    return entry;
  }

  /** Every field it looked at itself but for the ways in, and every node it asked, with the stage in which it did. */
  tell(field: (path: string) => void, node: (entry: Entry, stage: number) => void): void {
    for (const { path, isWayIn } of this.looks) if (!isWayIn) field(path);
    for (const { path } of this.places) field(path);
    for (const [index, entry] of this.entries.entries()) node(entry, this.stages[index] as number);
  }

  reason(why: string): void {
    this.reasons = [...this.reasons, why];
  }

  private absent({ unread, moot, lacks, impossible }: Absent): void {
    if (unread) this.isUnread = true;
    if (moot) return;
    this.lacks = [...this.lacks, ...lacks];
    if (impossible) this.impossible = [...this.impossible, impossible];
  }

  /**
   * Whether everything it looked at is the same in another plan, so many stages later. `differences`: in what each stage of
   * that plan differs from the stage in which it is known to hold.
   */
  holdsIn(plan: Plan, differences: readonly Differences[], later: number): boolean {
    for (const { stage, path, isUnread, isWayIn } of this.looks) {
      const { fields, isWhole } = differences[stage + later] as Differences;
      const analysis = plan[stage + later] as StageAnalysis;
      if (fields.has(path) && !(isWayIn && isFields(rawAt(analysis, path)))) return false;
      if (!isWhole && isUnreadAt(analysis, path, rawAt(analysis, path)) !== isUnread) return false;
    }
    for (const { stage, path, place } of this.places) {
      if (pathText(plan[stage + later]?.sheet.placeOf(path) ?? []) !== place) return false;
    }
    for (const [index, entry] of this.entries.entries()) {
      const analysis = plan[(this.stages[index] as number) + later];
      if (analysis?.worksheet.entryOf(entry.node) !== entry) return false;
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

/**
 * Whether a field that is not written leaves a question open; of others the schema says what missing means, and what a stage
 * does not change stays as it is.
 */
function isUnknownWhereMissing(path: string): boolean {
  if (path.startsWith('stages.changes.')) return false;
  const schema = fieldSchema(path as FieldPath);
  return schema !== undefined && schema.absent === undefined;
}

/** Takes note of what is read. */
type Told = (look: Look) => void;

/** A section of a stage as it is, with every field that is read of it told. */
export function watched<T extends object>(section: T, path: string, analysis: StageAnalysis, told: Told): T {
  return new Proxy(section, new Watching(path, analysis, told)) as T;
}

class Watching implements ProxyHandler<object> {
  private readonly looks = new Map<string, Look>();

  constructor(
    private readonly path: string,
    private readonly analysis: StageAnalysis,
    private readonly told: Told,
  ) {}

  get(target: object, name: string | symbol): unknown {
    const value = (target as Record<string | symbol, unknown>)[name];
    if (typeof name === 'symbol') return value;
    let look = this.looks.get(name);
    if (!look) {
      look = this.lookAt(this.path ? `${this.path}.${name}` : name, value);
      this.looks.set(name, look);
    }
    this.told(look);
    return look.value;
  }

  ownKeys(target: object): (string | symbol)[] {
    this.told({ ...this.lookAt(this.path, target), isWayIn: false });
    return Reflect.ownKeys(target);
  }

  private lookAt(path: string, value: unknown): Look {
    const { analysis, told } = this;
    const isLacking = value === undefined && isUnknownWhereMissing(path);
    const isUnread = isUnreadAt(analysis, path, value);
    const isWayIn = isFields(value);
    const seen = isWayIn ? watched(value, path, analysis, told) : value;
    return { stage: analysis.index, path, value: seen, isUnread, isLacking, isWayIn };
  }
}
