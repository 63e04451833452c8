export function sheetOf(number: number, samples: readonly string[]): string;
export function writeShop(folder: string, count: number): void;
