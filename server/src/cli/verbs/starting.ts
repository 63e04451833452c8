import { startingCsv } from '../../report/starting-csv.ts';
import { quoted } from '../../text/echo.ts';
import { oneSheet } from '../one-sheet.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

const options = {
  stage: { type: 'string', short: 's', value: 'NAME', about: 'of which stage; the first, if not said' },
} as const;

export const verb = define({
  about: 'List settings to begin tuning from: efficiency, mixture and spark over speed and manifold pressure.',
  operands: 'SHEET',
  details:
    'The list is CSV, a line a point. It is a starting point for whoever tunes the engine, never a finished tune; every line says so. The reasons stand in the report.',
  options,
  examples: [['starting quarry-wagon.build.yaml > start.csv', 'the list of the first stage']],
  async run({ operands, chosen, io }) {
    const { service, uri } = await oneSheet('starting', operands, io);
    const stages = service.starting(uri);
    const found = chosen.stage === undefined ? stages[0] : stages.find(({ stage }) => stage === chosen.stage);
    if (!found) {
      const names = stages.map(({ stage }) => quoted(stage)).join(', ');
      throw new Misuse(`no stage is called ${quoted(chosen.stage ?? '')}; there are ${names}.`);
    }
    if (!found.points) throw new Misuse(`${quoted(found.stage)} cannot be worked out: ${found.reason}`);
    return { code: ExitCode.clean, out: startingCsv(found.points) };
  },
});
