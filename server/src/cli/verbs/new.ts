import { writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { kindNames, newSheets } from '../../features/new-sheet.ts';
import { INPUT } from '../sources.ts';
import { define, ExitCode, Misuse } from '../verb.ts';

export const verb = define({
  about: 'Begin a sheet: the fields to ask for first, left empty.',
  operands: 'sheet',
  details: `${newSheets()
    .map(({ kind, about }) => `${kind}: ${about}`)
    .join('\n\n')}

An empty field means that it is not known yet; build-sheet ask asks for them. - writes the sheet to the standard output. A file that is there is left alone.`,
  options: {
    kind: {
      type: 'string',
      short: 'k',
      value: 'KIND',
      choices: kindNames,
      about: 'what kind of build; street, if not said',
    },
  },
  examples: [
    ['new quarry-wagon.build.yaml', 'a street car'],
    ['new --kind blower - > shop/wagon.build.yaml', 'one that gets a blower later'],
  ],
  async run({ operands: [path, ...more], chosen: { kind = 'street' }, io }) {
    if (path === undefined || more.length > 0) throw new Misuse('new takes the name of one sheet, or -.');
    const text = newSheets().find((one) => one.kind === kind)?.text ?? '';
    if (path === INPUT) return { code: ExitCode.clean, out: text };
    if (!/\.build\.ya?ml$/.test(path)) throw new Misuse(`a sheet is named *.build.yaml; ${path} is not.`);
    await writeFile(resolve(io.cwd, path), text, { flag: 'wx' }).catch((error: NodeJS.ErrnoException) => {
      throw new Misuse(
        error.code === 'EEXIST' ? `${path} is there already.` : `${path} cannot be written (${error.code}).`,
      );
    });
    return { code: ExitCode.clean, out: `${path} is begun; build-sheet ask ${path} asks for what it needs.\n` };
  },
});
