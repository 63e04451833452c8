import { quoted } from '../text/echo.ts';
import { removalOf } from './edit.ts';
import { type Entry, pathText, wholeRange } from './entry.ts';
import type { Problem, ProblemFix } from './problem.ts';

/** A field written twice, with the place of the first; either can be taken out where it is one line without an anchor. */
export function duplicateField(entry: Entry, root: Entry, text: string): Problem {
  const range = entry.key ?? entry.value;
  const parent = parentOf(root, entry);
  const first = parent?.children.find((sibling) => pathText(sibling.path) === pathText(entry.path));
  const isTwice = parent && first?.key && first !== entry;
  return {
    code: 'sheet/syntax',
    message: `This field is already written${isTwice ? ` in line ${lineOf(text, first)}` : ' above'}; keep one of the two.`,
    range,
    fixes: isTwice ? removals(first, entry, parent, text) : [],
    ...(first?.key && { related: [{ range: first.key, message: 'Written here first.' }] }),
  };
}

/** The later one goes where both say the same; else there is a choice. */
function removals(first: Entry, later: Entry, parent: Entry, text: string): ProblemFix[] {
  const isSame = valueText(first, text) === valueText(later, text);
  return (isSame ? [later] : [later, first]).flatMap((entry) => {
    const written = text.slice(wholeRange(entry).start, wholeRange(entry).end).trimEnd();
    const edit = /[\r\n&]/.test(written) ? undefined : removalOf({ text, root: parent }, parent, entry);
    const title = `Remove ${quoted(written)} in line ${lineOf(text, entry)}`;
    return edit ? [{ title, edits: [edit], preferred: isSame }] : [];
  });
}

function valueText({ value }: Entry, text: string): string {
  return text.slice(value.start, value.end).trim();
}

function lineOf(text: string, entry: Entry): number {
  return text.slice(0, wholeRange(entry).start).split(/\r\n|[\r\n]/).length;
}

function parentOf(root: Entry, entry: Entry): Entry | undefined {
  if (root.children.includes(entry)) return root;
  for (const inner of root.children) {
    const found = parentOf(inner, entry);
    if (found) return found;
  }
  return undefined;
}
