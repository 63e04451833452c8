import type { BuildSheet } from '../generated/build-sheet.ts';
import type { House } from '../sheet/house.ts';
import type { Path } from '../sheet/path.ts';
import { type StageSheet, stagesOf } from '../sheet/stages.ts';
import type { Absent, Figure, Outcome } from './figure.ts';
import { type FigureId, figures } from './figures.ts';
import type { FigureNode, Node } from './node.ts';
import { sourceOf } from './source.ts';
import { Tolerances } from './tolerance.ts';
import { absentIn, type Fault, figureIn, Worksheet } from './worksheet.ts';

/** What can be asked of one stage: any figure with its bounds, any fact, and all figures at once for a report. */
export class StageAnalysis {
  private readonly found = new Map<FigureNode, Figure | undefined>();
  private readonly tolerances: Tolerances;

  constructor(
    readonly sheet: StageSheet,
    readonly worksheet: Worksheet,
  ) {
    this.tolerances = new Tolerances(worksheet);
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

  /** A figure, with bounds where the sheet gives tolerances; nothing where it cannot be had. */
  figure(node: FigureNode): Figure | undefined {
    if (!this.found.has(node)) this.found.set(node, this.bounded(node));
    return this.found.get(node);
  }

  private bounded(node: FigureNode): Figure | undefined {
    const figure = figureIn(this.worksheet.see(node));
    const bounds = figure && this.tolerances.boundsOf(node, figure.value);
    return bounds ? { ...figure, ...bounds } : figure;
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

  /** Every figure that cannot be had though it makes sense here, with the reason. */
  get absent(): ReadonlyMap<FigureId, Absent & { name: string; home: FigureNode['home'] }> {
    return new Map(
      figures.flatMap((node) => {
        const absent = absentIn(this.worksheet.see(node));
        return absent && !absent.moot ? [[node.id, { ...absent, name: node.name, home: node.home }] as const] : [];
      }),
    );
  }

  get faults(): readonly Fault[] {
    return this.worksheet.faults;
  }
}

/**
 * Every stage of a sheet. With the analysis of an earlier version only what stands on a field that differs is computed
 * again; nothing is computed before it is asked for. What may stand in the `unread` parts of the text is neither taken as usual nor missing.
 */
export function analyze(
  values: Partial<BuildSheet>,
  house: House,
  before: readonly StageAnalysis[] = [],
  unread: readonly Path[] = [],
): StageAnalysis[] {
  return stagesOf(values, unread).map((stage) => {
    const source = sourceOf(stage, house);
    const base = before[stage.index]?.worksheet;
    return new StageAnalysis(stage, base ? base.derive(source) : new Worksheet(source));
  });
}
