/** What a text is. */
export type Kind = 'sheet' | 'house' | 'catalog';

/** More than the longest sheet that is read; beyond it a file is not even looked into. */
export const MOST_SHEET_BYTES = 4_000_000;

/** Names of house-rules files; of two in one folder the first holds. */
export const HOUSE_FILES = ['build-sheet.config.yaml', 'build-sheet.config.yml'] as const;

/** Patterns for the names of all our files, and of the logs that sheets may name. */
export const WATCHED: readonly string[] = [
  '**/*.build.{yaml,yml}',
  '**/*.parts.{yaml,yml}',
  '**/*.csv',
  ...HOUSE_FILES.map((name) => `**/${name}`),
];

/** What a text is by its name and, where that says nothing, by its language: `untitled:` texts have no name. */
export function kindOf(uri: string, languageId: string): Kind | undefined {
  const name = nameOf(uri).toLowerCase();
  if (HOUSE_FILES.some((file) => file === name)) return 'house';
  if (/\.build\.ya?ml$/.test(name)) return 'sheet';
  if (/\.parts\.ya?ml$/.test(name)) return 'catalog';
  if (languageId === 'build-sheet-parts') return 'catalog';
  if (languageId === 'build-sheet-config') return 'house';
  return languageId === 'build-sheet' ? 'sheet' : undefined;
}

/** The last part of an address, without query and fragment. */
function nameOf(uri: string): string {
  const path = uri.replace(/[?#].*$/s, '');
  return path.slice(path.lastIndexOf('/') + 1);
}
