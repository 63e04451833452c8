import { handedOver } from '../git-files.ts';
import { define, ExitCode, Misuse } from '../verb.ts';
import { harmless } from '../wrap.ts';

/** The name under which a text is read of which git does not tell the path: the house rules of the top folder hold. */
const NAMELESS = 'sheet.build.yaml';

export const verb = define({
  about: 'For git: a sheet as text, with its findings and figures after it.',
  operands: 'FILE',
  details: `git-setup makes git call it as textconv. Git does not tell where the file stands in the repository, so that the house rules of the top folder hold for every sheet.`,
  options: {},
  examples: [['git-text quarry-wagon.build.yaml', 'what git diff compares']],
  async run({ operands: [file, ...more], io }) {
    if (file === undefined || more.length > 0) throw new Misuse('git-text takes one file.');
    const handed = await handedOver(file, NAMELESS, io.cwd);
    if (!handed) return { code: ExitCode.clean };
    const { service, uri, text } = handed;
    const found = service.told(uri).map(({ severity, code, field, message, accepted }) => {
      const head = accepted === undefined ? severity : `accepted ${severity}`;
      return `# ${head} ${code} ${field}: ${message}`;
    });
    const figures = service.figureLines(uri).map((line) => `# ${line}`);
    const gap = text === '' || text.endsWith('\n') ? '' : '\n';
    const added = ['# ---- findings', ...found, '# ---- figures', ...figures].map(harmless).join('\n');
    return { code: ExitCode.clean, out: `${text}${gap}${added}\n` };
  },
});
