import type { CheckResult } from '../check-result.ts';

/** How text is shown: in colors or not, and in how many columns. */
export type Look = { hasColor: boolean; columns: number };

/** A way to write the result of a check. */
export type Format = (result: CheckResult, look: Look) => string;
