import type { BuildSheet } from '../generated/build-sheet.ts';
import type { House } from '../sheet/house.ts';
import type { Path } from '../sheet/path.ts';
import { type StageSheet, stagesOf } from '../sheet/stages.ts';
import type { Dimension } from '../units/units.ts';
import { type Bounds, type Estimate, type Figure, isKnown, type Outcome, type Term } from './figure.ts';
import { figures } from './figures.ts';
import type { FigureNode, Node } from './node.ts';
import { type Assumption, sourceOf } from './source.ts';
import { Tolerances } from './tolerance.ts';
import { type Fault, type Known, Worksheet } from './worksheet.ts';

/** What can be asked of one stage: any figure with its bounds, any fact, and all figures with what explains them. */
export class StageAnalysis {
  private tolerances: Tolerances | undefined;

  constructor(
    readonly sheet: StageSheet,
    readonly worksheet: Worksheet,
    private readonly isLoose = true,
  ) {}

  /** The same without tolerances. */
  get nominal(): StageAnalysis {
    return new StageAnalysis(this.sheet, this.worksheet, false);
  }

  get index(): number {
    return this.sheet.index;
  }

  get name(): string {
    return this.sheet.name;
  }

  see<T>(node: Node<T>): Outcome<T> {
    return this.worksheet.see(node);
  }

  /** What a node gives; nothing where it cannot be had. */
  know<T>(node: Node<T>): T | undefined {
    const outcome = this.worksheet.see(node);
    return isKnown(outcome) ? outcome.value : undefined;
  }

  /** The number of a figure, with bounds where the sheet gives tolerances; nothing where it cannot be had. */
  estimate(node: FigureNode): Estimate | undefined {
    const outcome = this.worksheet.see(node);
    return isKnown(outcome) ? new Bounded(node, outcome.value, this) : undefined;
  }

  /** A figure with all that explains it. */
  figure(node: FigureNode): Figure | undefined {
    if (!isKnown(this.worksheet.see(node))) return undefined;
    return { ...(this.worksheet.termsOf(node)[0] as Figure), ...this.boundsOf(node) };
  }

  /** What a figure that can be had is worked out of, as shown. */
  inputsOf(node: FigureNode): readonly Term[] {
    return (this.worksheet.termsOf(node)[0] as Figure).inputs;
  }

  /** The ends a figure can reach, where a tolerance moves it. */
  boundsOf(node: FigureNode): Bounds | undefined {
    if (!this.isLoose) return undefined;
    this.tolerances ??= new Tolerances(this.worksheet);
    return this.tolerances.boundsOf(node);
  }

  /** Every figure of the stage that can be had. */
  get figures(): ReadonlyMap<string, Figure> {
    return new Map(
      figures.flatMap((node) => {
        const figure = this.figure(node);
        return figure ? [[node.id, figure] as const] : [];
      }),
    );
  }

  get faults(): readonly Fault[] {
    return this.worksheet.faults;
  }
}

/** A number whose bounds are looked for when they are asked for. */
class Bounded implements Estimate {
  constructor(
    private readonly node: FigureNode,
    readonly value: number,
    private readonly stage: StageAnalysis,
  ) {}

  get name(): string {
    return this.node.name;
  }

  get dimension(): Dimension {
    return this.node.dimension;
  }

  get low(): number | undefined {
    return this.stage.boundsOf(this.node)?.low;
  }

  get high(): number | undefined {
    return this.stage.boundsOf(this.node)?.high;
  }
}

/**
 * Every stage of a sheet. What stands on the same fields in the stage before, or in the analysis of an earlier version, is
 * computed once; nothing is computed before it is asked for. What may stand in the `unread` parts of the text is neither
 * taken as usual nor missing. `known`: what is sure to hold, stage by stage.
 */
export function analyze(
  values: Partial<BuildSheet>,
  house: House,
  before: readonly StageAnalysis[] = [],
  unread: readonly Path[] = [],
  assumed: readonly Assumption[] = [],
  known: readonly Known[] = [],
): StageAnalysis[] {
  const plan: StageAnalysis[] = [];
  for (const stage of stagesOf(values, unread)) {
    const others = [before[stage.index], plan.at(-1)].flatMap((other) => other?.worksheet ?? []);
    plan.push(new StageAnalysis(stage, new Worksheet(sourceOf(stage, house, assumed), others, known[stage.index])));
  }
  return plan;
}
