import type { StageAnalysis } from '../analysis/analysis.ts';
import { figures } from '../analysis/figures.ts';
import { type HeldAgainst, heldAgainst } from '../analysis/headlines.ts';
import { type FigureNode, limit } from '../analysis/node.ts';
import type { Checked } from '../checking/checked.ts';
import type { Severity } from '../checking/rule.ts';
import type { Path } from '../sheet/path.ts';
import type { Dimension } from '../units/units.ts';

type Plan = readonly StageAnalysis[];

/** A figure in one stage, SI: its number, the ends it can reach, and how far its bad end is from a limit. */
export type FigureCell = {
  value: number;
  low?: number;
  high?: number;
  limit?: { value: number; side: HeldAgainst['side']; margin: number };
};

/** A figure over the stages; nothing where it cannot be had. */
export type FigureRow = {
  figure: string;
  name: string;
  dimension: Dimension;
  stages: readonly (FigureCell | undefined)[];
};

/** Something found: the stages by name, none where it is about the sheet. */
export type FindingRow = { rule: string; severity: Severity; message: string; path: Path; stages: readonly string[] };

/** A check that could not be made. */
export type OpenRow = {
  rule: string;
  title: string;
  severity: Severity;
  stages: readonly string[];
  lacks: readonly string[];
  impossible: readonly string[];
};

/** A finding the sheet accepts. */
export type AcceptedRow = FindingRow & { reason: string };

/** A value taken where the sheet says nothing, and how many figures of all stages take it directly. */
export type AssumptionRow = {
  name: string;
  value: number;
  dimension: Dimension;
  text?: string;
  path?: Path;
  because: string;
  figures: number;
};

/** Every figure that some stage has, in the order of the topics. */
export function figureTable(plan: Plan): FigureRow[] {
  return figures.flatMap((node) => figureRow(node, plan) ?? []);
}

/** A figure over the stages, or nothing where none has it. */
export function figureRow(node: FigureNode, plan: Plan): FigureRow | undefined {
  const stages = plan.map((stage) => cellOf(stage, node));
  if (stages.every((cell) => cell === undefined)) return undefined;
  return { figure: node.id, name: node.name, dimension: node.dimension, stages };
}

/** A figure in one stage, with the ends it can reach and its limit; nothing where it cannot be had. */
export function cellOf(stage: StageAnalysis, node: FigureNode): FigureCell | undefined {
  const value = stage.estimate(node)?.value;
  if (value === undefined) return undefined;
  const bounds = stage.boundsOf(node);
  const held = heldAgainst[node.id];
  const limitValue = held && boundIn(stage, held);
  if (!held || limitValue === undefined) return { value, ...bounds };
  const { side } = held;
  const margin = side === 'at most' ? limitValue - (bounds?.high ?? value) : (bounds?.low ?? value) - limitValue;
  return { value, ...bounds, limit: { value: limitValue, side, margin } };
}

/** The number a figure is held against in a stage, SI. */
function boundIn(stage: StageAnalysis, { limit: held }: HeldAgainst): number | undefined {
  return typeof held === 'number' ? held : stage.know(limit(held));
}

/** What was found, in the order of the text. */
export function findingTable({ findings, plan }: Pick<Checked, 'findings' | 'plan'>): FindingRow[] {
  return findings.map((finding) => findingRow(finding, plan));
}

/** What the sheet accepts, with its reasons. */
export function acceptedTable({ accepted, plan }: Pick<Checked, 'accepted' | 'plan'>): AcceptedRow[] {
  return accepted.map(({ finding, reason }) => ({ ...findingRow(finding, plan), reason }));
}

function findingRow(
  finding: Pick<FindingRow, 'rule' | 'severity' | 'message' | 'path'> & Held,
  plan: Plan,
): FindingRow {
  const { rule, severity, message, path } = finding;
  return { rule, severity, message, path, stages: namesOf(finding, plan) };
}

type Held = { stages: readonly number[] };

/** The names of the stages something holds in. */
function namesOf({ stages }: Held, plan: Plan): string[] {
  return stages.map((stage) => plan[stage]?.name ?? `stage ${stage + 1}`);
}

/** The checks that could not be made, with what they lack. */
export function openTable({ open, plan }: Pick<Checked, 'open' | 'plan'>): OpenRow[] {
  return open.map((check) => ({ ...check, stages: namesOf(check, plan) }));
}

/** What was taken for granted, the most used first. */
export function assumptionTable(plan: Plan): AssumptionRow[] {
  const rows = new Map<string, AssumptionRow>();
  for (const stage of plan) {
    for (const { inputs } of stage.figures.values()) {
      for (const { name, value, dimension, text, field, assumed } of inputs) {
        if (!assumed) continue;
        const key = JSON.stringify([name, field, value, text, assumed]);
        const row = rows.get(key) ?? { name, value, dimension, because: assumed, figures: 0 };
        rows.set(key, { ...row, ...(text && { text }), ...(field && { path: field }), figures: row.figures + 1 });
      }
    }
  }
  return [...rows.values()].toSorted((one, other) => other.figures - one.figures);
}
