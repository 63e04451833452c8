import { version } from '../../../../package.json';
import { type AskedQuestion, questionsLetter, questionsPage } from '../../features/questions.ts';
import { plainText } from '../../report/plain-text.ts';
import { eachSheet } from '../each-sheet.ts';
import type { Io } from '../io.ts';
import { pageText } from '../page-text.ts';
import { define, Misuse } from '../verb.ts';
import { harmless } from '../wrap.ts';

/** Grows whenever something that was there is no longer so, or means something else. */
const FORMAT_VERSION = 1;

type Asked = { path: string; title: string; questions: readonly AskedQuestion[] };

const formats = {
  text: (sheets: readonly Asked[], io: Io) =>
    sheets
      .map(
        ({ path, questions }) =>
          `${sheets.length > 1 ? `${harmless(path)}\n\n` : ''}${pageText(questionsPage(questions), 'text', io)}`,
      )
      .join('\n'),
  letter: (sheets: readonly Asked[]) =>
    sheets.map(({ title, questions }) => `${plainText(questionsLetter(title, questions))}\n`).join('\n'),
  json: (sheets: readonly Asked[]) => {
    const tool = { name: 'build-sheet', version };
    return `${JSON.stringify({ version: FORMAT_VERSION, tool, files: sheets }, null, 2)}\n`;
  },
};

export const verb = define({
  about: 'List what is still to be asked about a sheet, weightiest first.',
  operands: '[paths]',
  details: `Weightiest is what most checks and figures wait for, the severe ones first; fields that a sheet leaves empty come before the others.

A letter is text to send to whoever knows the car: the questions in plain words with their choices, without fields and rules.`,
  options: {
    format: {
      type: 'string',
      short: 'f',
      value: 'FORMAT',
      choices: ['text', 'letter', 'json'],
      about: 'how to write the questions',
    },
    most: {
      type: 'string',
      short: 'n',
      value: 'NUMBER',
      about: 'how many questions to list of a sheet; all of them, if not said',
    },
    'stdin-name': {
      type: 'string',
      value: 'PATH',
      about: 'what the standard input is called; its folder says which house rules hold',
    },
  },
  examples: [
    ['questions quarry-wagon.build.yaml', 'what to ask next'],
    ['questions --format letter -n 10 quarry-wagon.build.yaml', 'the ten weightiest, to be sent to the customer'],
    ['questions --format json .', 'of every sheet in this folder and below, for a program'],
  ],
  async run({ operands, chosen: { format = 'text', most, 'stdin-name': inputName }, io }) {
    const limit = most === undefined ? Number.POSITIVE_INFINITY : countOf(most);
    const { visited, code } = await eachSheet(operands, inputName, io, ({ path, uri, service }) => ({
      path,
      title: service.title(uri) ?? path,
      questions: service.questions(uri).slice(0, limit),
    }));
    return { code, out: formats[format](visited, io) };
  },
});

function countOf(most: string): number {
  if (!/^[1-9]\d{0,5}$/.test(most)) throw new Misuse(`--most takes a number of questions, not "${most}".`);
  return Number(most);
}
