import type { StageAnalysis } from '../analysis/analysis.ts';
import { withSpread } from '../analysis/figure-words.ts';
import { figureNamed } from '../analysis/figures.ts';
import type { Accepted, Finding, OpenCheck } from '../checking/finding.ts';
import { lastingIdentities } from '../checking/identity.ts';
import { formatValue, type Units } from '../units/format.ts';
import { cellOf, type FigureCell } from './model.ts';

/** One build as it is compared with another: what was found, accepted and not checked, and its figures by stage. */
export type Build = {
  values: unknown;
  plan: readonly StageAnalysis[];
  findings: readonly Finding[];
  accepted: readonly Accepted[];
  open: readonly OpenCheck[];
};

/** A finding with what it is known by in both builds: its rule and field, and these in each of its stages. */
export type Known = { finding: Finding; subject: string; ids: readonly string[] };

/** A figure in a stage. */
export type CellKey = { figure: string; stage: string };

/** What is looked up of a build while it is compared; stages by the names they have in the later build. */
export class BuildState {
  readonly stages: readonly string[];
  readonly findings: readonly Known[];
  readonly accepted: readonly (Known & { reason: string })[];
  /** The checks not made, each in one stage. */
  readonly open: ReadonlyMap<string, { check: OpenCheck; stage: string }>;
  private readonly byId = new Map<string, Finding>();
  private readonly cells = new Map<string, FigureCell | undefined>();

  constructor(
    private readonly build: Build,
    renamed: ReadonlyMap<string, string>,
    private readonly units: Units,
  ) {
    this.stages = build.plan.map(({ name }) => renamed.get(name) ?? name);
    const known = (finding: Finding): Known => {
      const ids = lastingIdentities(finding, build.values, this.stages);
      const [first = ''] = ids;
      const [stage] = finding.stages;
      const inStage = stage === undefined ? '' : ` in ${this.stages[stage]}`;
      return { finding, subject: first.slice(0, first.length - inStage.length), ids };
    };
    this.findings = build.findings.map(known);
    this.accepted = build.accepted.map(({ finding, reason }) => ({ ...known(finding), reason }));
    this.open = new Map(
      build.open.flatMap((check) =>
        check.stages.map((number) => {
          const stage = this.stages[number] ?? String(number + 1);
          return [`${check.rule} in ${stage}`, { check, stage }] as const;
        }),
      ),
    );
    for (const { finding, ids } of this.findings) for (const id of ids) this.byId.set(id, finding);
  }

  /** What is found under an identity. */
  found(id: string): Finding | undefined {
    return this.byId.get(id);
  }

  /** A figure in a stage; nothing where it cannot be had. */
  cell({ figure, stage }: CellKey): FigureCell | undefined {
    const key = `${figure} ${stage}`;
    if (!this.cells.has(key)) {
      const at = this.build.plan[this.stages.indexOf(stage)];
      const node = figureNamed(figure);
      this.cells.set(key, at && node && cellOf(at, node));
    }
    return this.cells.get(key);
  }

  /** A figure as it is shown, with the side of its limit it is on: two that read the same are the same. */
  shown(key: CellKey): string {
    const cell = this.cell(key);
    const node = figureNamed(key.figure);
    if (!cell || !node) return '';
    const text = withSpread({ ...cell, dimension: node.dimension }, (value, dimension, spread) =>
      formatValue(value, dimension, this.units, spread),
    );
    return `${text}${isBeyond(cell) ? '!' : ''}`;
  }
}

/** Whether the bad end of a figure is beyond its limit. */
export function isBeyond(cell: FigureCell | undefined): boolean {
  const { margin = 0, value = 0 } = cell?.limit ?? {};
  return margin < -1e-9 * Math.abs(value);
}
