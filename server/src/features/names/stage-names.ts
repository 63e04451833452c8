import { editsFor } from '../../sheet/edit.ts';
import { childOf, type Entry, innerRange, isUnknown, writtenOf } from '../../sheet/entry.ts';
import { entryOf } from '../../sheet/read.ts';
import { quoted } from '../../text/echo.ts';
import type { NamedText, NameKind, Occurrence } from './name-kind.ts';

/** Where stages are named, and where a field refers to one by its name. */
const PLACES = [
  { list: 'stages', field: 'name', role: 'given' },
  { list: 'silence', field: 'stage', role: 'used' },
] as const;

function occurrences({ text, root }: NamedText): Occurrence[] {
  return entries(root).flatMap(({ entry, role }) => {
    const name = writtenOf(entry, text);
    return [{ name, range: innerRange(entry, text), role, thing: name }];
  });
}

function entries(root: Entry): { entry: Entry; role: Occurrence['role'] }[] {
  return PLACES.flatMap(({ list, field, role }) =>
    (entryOf({ root }, [list])?.children ?? []).flatMap((item) => {
      const entry = childOf(item, field);
      const isName = entry?.kind === 'scalar' && !isUnknown(entry) && !entry.inherited;
      return isName ? [{ entry, role }] : [];
    }),
  );
}

/** Names of stages, which `silence` refers to. */
export const stageNames: NameKind = {
  id: 'stage',
  occurrences,
  refusal: (name, taken) => {
    if (name.trim() === '') return 'A stage needs a name.';
    if (/[\r\n]/.test(name)) return 'The name of a stage stands on one line.';
    return taken.has(name) ? `There is a stage named ${quoted(name)} already.` : undefined;
  },
  renamed: ({ text, root }, some, name) => {
    const starts = new Set(some.map(({ range }) => range.start));
    const paths = entries(root).filter(({ entry }) => starts.has(innerRange(entry, text).start));
    return editsFor(
      { text, root },
      paths.map(({ entry }) => ({ set: entry.path, to: name })),
    );
  },
  pattern: '[^"\'#,\\[\\]{}\\r\\n]+',
};
