import { headroomPage } from '../../report/headroom-page.ts';
import { inOneGo } from '../../text/steps.ts';
import { oneSheet } from '../one-sheet.ts';
import { pageFormat, pageText } from '../page-text.ts';
import { define, ExitCode } from '../verb.ts';

export const verb = define({
  about: 'Tell how far the parts of each stage go, and what gives way first.',
  operands: 'SHEET',
  details: `A stage without a blower raises its power, one with a blower its boost, until the rules about what parts can carry are broken, one after another. Rules about the claim itself are left out. Parts that the sheet does not give are no rung.

Knock is a rung of its own: an estimate for a second look, never a clearance.`,
  options: { format: pageFormat },
  examples: [
    ['headroom quarry-wagon.build.yaml', 'good to so much power, then which part'],
    ['headroom --format json quarry-wagon.build.yaml', 'the same for a program, power in watts'],
  ],
  async run({ operands, chosen, io }) {
    const { service, uri } = await oneSheet('headroom', operands, io);
    const { stages, units } = inOneGo(service.headroom(uri));
    const { format = 'text' } = chosen;
    if (format !== 'json') return { code: ExitCode.clean, out: pageText(headroomPage(stages, units), format, io) };
    const plain = stages.map(({ rungs, already, open, ...stage }) => ({
      ...stage,
      already: already.map(({ rule, message }) => ({ rule, message })),
      open: open.map(({ rule, lacks, impossible }) => ({ rule, lacks, impossible })),
      rungs: rungs.map(({ broken, ...rung }) => ({ ...rung, rule: broken.rule, message: broken.message })),
    }));
    return { code: ExitCode.clean, out: `${JSON.stringify({ version: 1, stages: plain }, null, 2)}\n` };
  },
});
