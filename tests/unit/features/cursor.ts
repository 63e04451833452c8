import { completionsAt, type Proposal } from '../../../server/src/features/completion.ts';
import { root } from '../../../server/src/sheet/schema.ts';

/** A text without its cursor mark `‸`, and the offset of the mark. */
export function atCursor(marked: string): { text: string; offset: number } {
  const offset = marked.indexOf('‸');
  if (offset < 0 || marked.indexOf('‸', offset + 1) >= 0) throw new Error(`${marked}: no single cursor`);
  return { text: marked.replace('‸', ''), offset };
}

/** What is offered at the mark. */
export function proposals(marked: string, schema = root): Proposal[] {
  const { text, offset } = atCursor(marked);
  return completionsAt(text, offset, schema).proposals;
}

/** The names of what is offered at the mark. */
export function labels(marked: string, schema = root): string[] {
  return proposals(marked, schema).map(({ label }) => label);
}

/** The text, with a mark where the cursor goes on, once the named proposal, or the first, is taken. */
export function taken(marked: string, name?: string, schema = root): string {
  const { text, offset } = atCursor(marked);
  const { replace, proposals: all } = completionsAt(text, offset, schema);
  const proposal = all.find(({ label }) => name === undefined || label === name);
  if (!proposal) throw new Error(`${marked}: ${name ?? 'anything'} is not offered`);
  const { insert, cursor = insert.length } = proposal;
  return `${text.slice(0, replace.start)}${insert.slice(0, cursor)}‸${insert.slice(cursor)}${text.slice(replace.end)}`;
}
