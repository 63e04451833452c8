import { topicNames, topicPage } from '../../features/explain-topic.ts';
import { pageText } from '../page-text.ts';
import { near } from '../parse.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

export const verb = define({
  about: 'Explain a rule, a problem with the text, a figure or a field.',
  operands: 'TOPIC',
  options: {
    format: {
      type: 'string',
      short: 'f',
      value: 'FORMAT',
      choices: ['text', 'markdown'],
      about: 'how to write it; text, if not said',
    },
  },
  examples: [
    ['explain fuel-supply/hose-pressure', 'why a rule is there, what to look at, how it is repaired, by which source'],
    ['explain duty-peak-power', 'a figure, with its formula and source'],
    ['explain fuel-system.pump.placement', 'a field, with its choices'],
  ],
  async run({ operands: [topic, ...more], chosen: { format = 'text' }, io }) {
    if (topic === undefined || more.length > 0)
      throw new Misuse('explain takes the name of one rule, figure or field.');
    const page = topicPage(topic);
    const meant = page ? undefined : near(topic, topicNames());
    if (!page)
      throw new Misuse(`there is no rule, figure or field "${topic}"${meant ? `; did you mean ${meant}?` : '.'}`);
    return { code: ExitCode.clean, out: pageText(page, format, io) };
  },
});
