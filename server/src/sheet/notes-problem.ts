import { endOfLine, newline } from '../text/lines.ts';
import type { Entry } from './entry.ts';
import type { Problem } from './problem.ts';

/** A text of several lines that holds no field at all, such as notes pasted from a phone, is told so in one sentence. */
export function notesProblem(text: string, root: Entry, broken: boolean): Problem | undefined {
  const isText = root.kind === 'scalar' && typeof root.scalar === 'string';
  const isBroken = broken && root.kind === 'map' && !root.flow && !root.children.some(({ schema }) => schema);
  if (!isText && !isBroken) return undefined;
  const lines = text.split(/\r\n|[\r\n]/);
  const written = lines.filter((line) => /^\s*[^\s#]/.test(line));
  if (written.length < 2) return undefined;
  const first = text.search(/^\s*[^\s#]/m);
  const start = first + (/^\s*/.exec(text.slice(first))?.[0].length ?? 0);
  const eol = newline(text);
  const kept = lines.map((line) => (/^\s*[^\s#]/.test(line) ? `# ${line}` : line)).join(eol);
  return {
    code: 'sheet/syntax',
    message:
      'No field of a build sheet is found here. Start with "format: 2", then write one field a line, such as "title: Quarry wagon".',
    range: { start, end: endOfLine(text, start) },
    fixes: [
      {
        title: 'Start with "format: 2" and keep these lines as comments',
        edits: [{ start: 0, end: text.length, text: `format: 2${eol}${kept}` }],
        preferred: false,
      },
    ],
  };
}
