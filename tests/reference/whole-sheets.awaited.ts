/** Figures of which the value worked outside the code is right and the product's is not yet. */
export type Awaited = {
  sheets: readonly string[];
  /** Names of stages; all of the sheet where none is named. */
  stages?: readonly string[];
  figures: readonly string[];
  why: string;
};

/** A test fails as soon as one of these agrees: it then comes off the list. */
export const awaited: readonly Awaited[] = [];

/** Why a figure of a stage may differ, or nothing. */
export function awaitedFor(sheet: string, stage: string, figure: string): string | undefined {
  return awaited.find(
    ({ sheets, stages, figures }) =>
      sheets.includes(sheet) && (stages?.includes(stage) ?? true) && figures.includes(figure),
  )?.why;
}
