import { completionScripts } from '../completion-scripts.ts';
import { allVerbs } from '../run.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

const shells = Object.keys(completionScripts) as (keyof typeof completionScripts)[];

export const verb = define({
  about: 'Write a script with which a shell completes verbs, options and choices.',
  operands: 'bash|zsh|fish',
  options: {},
  examples: [
    ['completion bash >> ~/.bashrc', 'from the next shell on'],
    ['completion zsh > ~/.zfunc/_build-sheet', 'in a folder of fpath'],
    ['completion fish > ~/.config/fish/completions/build-sheet.fish', 'for fish'],
  ],
  async run({ operands: [name, ...more] }) {
    const shell = shells.find((one) => one === name);
    if (!shell || more.length > 0) throw new Misuse(`completion takes one shell: ${shells.join(', ')}.`);
    return { code: ExitCode.clean, out: completionScripts[shell](await allVerbs()) };
  },
});
