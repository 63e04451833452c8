import type { StageAnalysis } from '../analysis/analysis.ts';
import type { Node } from '../analysis/node.ts';
import { absentIn, type Entry } from '../analysis/worksheet.ts';
import { pathText } from '../sheet/entry.ts';
import { type FieldPath, fieldSchema, type Path, stepsOf, valueAt } from '../sheet/path.ts';

/** What a rule looked at while it was asked, so that it is asked again only when that differs. */
export class Watch {
  private readonly fields = new Map<string, { stage: number; path: string; value: unknown; unread: boolean }>();
  private readonly places = new Map<string, { stage: number; path: FieldPath; place: string }>();
  private readonly nodes: { stage: number; entry: Entry }[] = [];
  readonly lacks = new Set<FieldPath>();
  readonly impossible = new Set<string>();
  /** Whether it looked for something that may stand in a part of the text that could not be read. */
  isUnread = false;

  field(stage: number, path: string, value: unknown, unread: boolean): void {
    this.fields.set(`${stage} ${path}`, { stage, path, value, unread });
    if (unread) this.isUnread = true;
    if (value === undefined && isUnknownWhereMissing(path)) this.lacks.add(path as FieldPath);
  }

  place(stage: number, path: FieldPath, place: Path): void {
    this.places.set(`${stage} ${path}`, { stage, path, place: pathText(place) });
  }

  node(analysis: StageAnalysis, node: Node<unknown>): void {
    const entry = analysis.worksheet.entryOf(node);
    this.nodes.push({ stage: analysis.index, entry });
    const absent = absentIn(entry.outcome);
    if (absent?.unread) this.isUnread = true;
    if (!absent || absent.moot) return;
    for (const path of absent.lacks) this.lacks.add(path);
    if (absent.impossible) this.impossible.add(absent.impossible);
  }

  /** Whether everything it looked at is the same in another plan of as many stages. */
  holdsIn(plan: readonly StageAnalysis[]): boolean {
    for (const { stage, path, value, unread } of this.fields.values()) {
      if (rawAt(plan[stage], path) !== value || isUnreadAt(plan[stage], path, value) !== unread) return false;
    }
    for (const { stage, path, place } of this.places.values()) {
      if (pathText(plan[stage]?.sheet.placeOf(path) ?? []) !== place) return false;
    }
    for (const { stage, entry } of this.nodes) if (plan[stage]?.worksheet.entryOf(entry.node) !== entry) return false;
    return true;
  }
}

function rawAt(analysis: StageAnalysis | undefined, path: string): unknown {
  const steps = stepsOf(path as FieldPath);
  return steps[0] === 'stages' ? valueAt(analysis?.sheet.stage, steps, 1) : valueAt(analysis?.sheet.values, steps);
}

/** Whether a field without a value may stand in a part of the text that could not be read. */
export function isUnreadAt(analysis: StageAnalysis | undefined, path: string, value: unknown): boolean {
  return value === undefined && analysis?.sheet.isUnread(path as FieldPath) === true;
}

/** Whether a field that is not written leaves a question open; of others the schema says what missing means. */
function isUnknownWhereMissing(path: string): boolean {
  const schema = fieldSchema(path as FieldPath);
  return schema !== undefined && schema.absent === undefined;
}

/** A value as it is, with every field that is read of it told to the watch of the moment. */
export function watched<T extends object>(
  value: T,
  prefix: string,
  told: (path: string, value: unknown) => void,
  known = new WeakMap<object, object>(),
): T {
  const before = known.get(value);
  if (before) return before as T;
  const proxy = new Proxy(value, {
    get(target, key) {
      const inner = Reflect.get(target, key) as unknown;
      if (typeof key === 'symbol') return inner;
      const path = prefix ? `${prefix}.${key}` : key;
      told(path, inner);
      return isSection(inner) ? watched(inner, path, told, known) : inner;
    },
    ownKeys(target) {
      told(prefix, target);
      return Reflect.ownKeys(target);
    },
  });
  known.set(value, proxy);
  return proxy;
}

function isSection(value: unknown): value is object {
  return typeof value === 'object' && value !== null && !Array.isArray(value) && !('dimension' in value);
}
