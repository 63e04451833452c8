import type { Path } from './schema.ts';

/**
 * Whether a value that is not there may stand in a part of the text that could not be read. A part is given by the path
 * of what it is, or of the fields it stands among.
 */
export function mayBeUnread(values: unknown, unread: readonly Path[], path: Path): boolean {
  if (unread.length === 0) return false;
  const known = knownSteps(values, path);
  if (known === path.length) return false;
  return unread.some((part) => {
    const shared = part.findIndex((step, index) => step !== path[index]);
    const common = shared < 0 ? part.length : shared;
    return common === path.length || (common === part.length && known <= part.length);
  });
}

function knownSteps(values: unknown, path: Path): number {
  let value = values;
  for (const [index, step] of path.entries()) {
    value = typeof value === 'object' && value !== null ? (value as Record<string | number, unknown>)[step] : undefined;
    if (value === undefined) return index;
  }
  return path.length;
}
