import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createColors } from 'picocolors';
import { filesNow } from '../../disk.ts';
import { type Asking, beginning, type PutQuestion, type Reply, type Turn } from '../../features/ask.ts';
import { Service } from '../../service.ts';
import { applyEdits } from '../../text/apply-edits.ts';
import { MOST_SHEET_BYTES } from '../../workspace/kind.ts';
import { open } from '../check-file.ts';
import { shownPath } from '../check-files.ts';
import type { Dialog } from '../dialog.ts';
import { houseRoots } from '../house-roots.ts';
import type { Io } from '../io.ts';
import { replace } from '../replace.ts';
import { type Answer, define, ExitCode, Misuse } from '../verb.ts';
import { harmless, wrapped } from '../wrap.ts';

const WIDTH = 100;
const HOW = 'Enter: not known yet, or as it is.  back  stop  ?: what waits for it.';

export const verb = define({
  about: 'Ask for what is missing, one question after the other, and write each answer into the sheet.',
  operands: 'sheet',
  details: `The weightiest question comes first. Choose by number or name; a number without a unit is read in the unit that is shown. Enter alone means that it is not known yet: the field stays empty. back goes to the question before, stop (or Ctrl-D) ends; what was answered is in the file by then, with its order and comments as they were.

The sheet may be empty, or not be there yet. Answers can come from a file as well, a line for each question.`,
  options: {},
  examples: [
    ['ask new.build.yaml', 'from nothing to a whole sheet'],
    ['ask quarry-wagon.build.yaml < answers.txt', 'with the answers of a file'],
  ],
  async run({ operands: [path, ...more], io }) {
    if (path === undefined || more.length > 0) throw new Misuse('ask takes one sheet.');
    const dialog = await io.dialog();
    try {
      return await talk(resolve(io.cwd, path), dialog, io);
    } finally {
      dialog.close();
    }
  },
});

/** Puts question after question until there are no more or the user stops. */
async function talk(file: string, dialog: Dialog, io: Io): Promise<Answer> {
  const sheet = new AskedSheet(file, io);
  let turn = await sheet.reply(beginning, undefined);
  if (turn.question)
    io.write(`${turn.question.left + 1} questions about ${harmless(shownPath(file, io.cwd))}. ${HOW}\n`);
  let answers = 0;
  for (let isNew = true; turn.question; ) {
    if (isNew) io.write(`\n${questionText(turn.question, io)}\n`);
    const line = await dialog.line(
      `${turn.question.unit ? `(${turn.question.unit}) ` : ''}> `,
      wordsFor(turn.question),
    );
    const reply = line === undefined ? 'stop' : replyFor(line, turn.question);
    if (reply === 'stop') break;
    isNew = reply !== 'why';
    if (reply === 'why') io.write(whyText(turn.question));
    else {
      turn = await sheet.reply(turn.asking, reply);
      if (turn.refusal !== undefined) io.write(`${wrapped(harmless(turn.refusal), WIDTH)}\n`);
      else if (typeof reply === 'object') answers++;
      isNew = turn.refusal === undefined;
    }
  }
  const rest = turn.question ? '' : ' Nothing is left to ask.';
  return { code: ExitCode.clean, out: `\n${answers === 1 ? '1 answer' : `${answers} answers`} written.${rest}\n` };
}

/** A sheet on disk that is asked about; read again before each reply, since someone may have it open elsewhere. */
class AskedSheet {
  private readonly service = new Service();
  private readonly uri: string;

  constructor(
    private readonly file: string,
    { cwd }: Io,
  ) {
    this.uri = pathToFileURL(file).href;
    this.service.workspace.roots = houseRoots([file], cwd);
  }

  /** What comes of a reply; what it writes is in the file afterwards. */
  async reply(asking: Asking, reply: Reply | undefined): Promise<Turn> {
    const found = await filesNow.read(this.uri, MOST_SHEET_BYTES);
    if (found.kind === 'refused') throw new Misuse(`${this.file}: ${found.reason}`);
    const text = found.kind === 'text' ? found.text : '';
    await open(this.uri, text, this.service, filesNow);
    const turn = this.service.ask(this.uri, asking, reply);
    if (!turn) throw new Misuse(`${this.file} is no build sheet.`);
    if (turn.edits.length > 0) await replace(this.file, applyEdits(text, turn.edits));
    return turn;
  }
}

function replyFor(line: string, { choices, written }: PutQuestion): Reply | 'stop' | 'why' {
  const answer = line.trim();
  if (answer === '') return written === undefined ? 'unknown' : 'keep';
  if (answer === '?') return 'why';
  if (answer === 'back' || answer === '<') return 'back';
  if (answer === 'stop' || answer === '.') return 'stop';
  return { answer: choices[Number(answer) - 1]?.value ?? answer };
}

function wordsFor({ choices }: PutQuestion): string[] {
  return [...choices.map(({ value }) => value), 'back', 'stop'];
}

function questionText({ text, at, choices, example, usual, written, left }: PutQuestion, { hasColor }: Io): string {
  const { bold, dim } = createColors(hasColor);
  const width = Math.max(0, ...choices.map(({ value }) => value.length));
  return [
    bold(wrapped(harmless(text), WIDTH)),
    dim(`  ${at}${left > 0 ? `, ${left} more after it` : ', the last one'}`),
    ...choices.map(({ value, meaning }, index) => `  ${index + 1} ${value.padEnd(width)}  ${dim(meaning)}`),
    ...(choices.length === 0 && example ? [dim(`  such as ${example}`)] : []),
    ...(usual ? [dim(wrapped(`  as long as it is not known: ${usual.value}, ${usual.because}`, WIDTH))] : []),
    ...(written === undefined ? [] : [`  now: ${harmless(written)}`]),
  ].join('\n');
}

/** What waits for an answer. */
function whyText({ settles, figures, description }: PutQuestion): string {
  const waiting = [
    ...settles.map(({ title }) => `whether this is so: ${title}`),
    ...figures.map((name) => `the figure: ${name}`),
  ];
  return [description, ...waiting].map((line) => `  ${wrapped(line, WIDTH)}\n`).join('');
}
