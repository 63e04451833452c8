import { entryAt } from '../../sheet/entry.ts';
import { entryOf } from '../../sheet/read.ts';
import { onLines, onOneLine, saysTheSame } from '../../sheet/restyle.ts';
import { applyEdits } from '../../text/apply-edits.ts';
import { quoted } from '../../text/echo.ts';
import type { Action, Asked } from './action.ts';

/** The innermost section at the cursor over lines, or back on one line. */
export function restyled({ checked: { sheet }, range, read }: Asked): Action[] {
  const { path } = entryAt(sheet.root, range.start);
  for (let length = path.length; length > 0; length--) {
    const entry = entryOf(sheet, path.slice(0, length));
    if (!entry || (entry.kind !== 'map' && entry.kind !== 'list')) continue;
    const edit = entry.flow ? onLines(sheet, entry) : onOneLine(sheet, entry);
    if (!edit) return [];
    if (!saysTheSame(sheet.root, read(applyEdits(sheet.text, [edit])).root)) return [];
    const name = typeof entry.path.at(-1) === 'string' ? quoted(String(entry.path.at(-1))) : 'this item';
    return [
      { title: entry.flow ? `Write ${name} on lines` : `Write ${name} on one line`, kind: 'rewrite', edits: [edit] },
    ];
  }
  return [];
}
