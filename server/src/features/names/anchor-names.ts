import { anchorsIn } from '../../sheet/anchors.ts';
import { quoted } from '../../text/echo.ts';
import type { NameKind } from './name-kind.ts';

/** Anchors, and the aliases and merges that take them up. */
export const anchorNames: NameKind = {
  id: 'anchor',
  occurrences: ({ text }) =>
    anchorsIn(text).map(({ name, range, role, giving }) => ({ name, range, role, thing: `${name} ${giving}` })),
  refusal: (name, taken) => {
    if (!/^[^\s,[\]{}]+$/.test(name)) return 'The name of an anchor has no spaces, commas, brackets or braces.';
    return taken.has(name) ? `There is an anchor named ${quoted(name)} already.` : undefined;
  },
  renamed: (_, some, name) => some.map(({ range }) => ({ ...range, text: name })),
  pattern: '[^\\s,\\[\\]{}]+',
};
