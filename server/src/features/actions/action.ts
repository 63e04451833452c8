import type { Checked } from '../../checking/checked.ts';
import type { TextEdit } from '../../sheet/problem.ts';
import type { Sheet } from '../../sheet/read.ts';
import type { Range } from '../../text/place.ts';

/** A change of the text that mends nothing: what is inserted, written differently, or moved. */
export type Action = { title: string; kind: 'insert' | 'rewrite' | 'move'; edits: readonly TextEdit[] };

/** Where an action is asked for: a sheet, the stretch that is selected, and how a changed text is read. */
export type Asked = { checked: Checked; range: Range; read: (text: string) => Sheet };
