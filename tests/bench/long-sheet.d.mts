export function longSheet(lines: number, options?: { tolerances?: boolean }): string;
export function writeLongSheets(lengths: number[]): string[];
