import type { Severity } from '../../checking/rule.ts';
import { Service } from '../../service.ts';
import { checkFiles } from '../check-files.ts';
import { type CheckResult, countsOf, severities } from '../check-result.ts';
import { mended, patchOf } from '../fix-files.ts';
import { formatNames, formats } from '../formats/formats.ts';
import { houseRoots } from '../house-roots.ts';
import type { Io } from '../io.ts';
import { KeptChecks } from '../kept-checks.ts';
import { progressOn } from '../progress.ts';
import { replace } from '../replace.ts';
import { since } from '../since.ts';
import { INPUT, type Sources, sourcesOf } from '../sources.ts';
import { crewOf } from '../threads.ts';
import { type Answer, type Chosen, define, ExitCode, Misuse } from '../verb.ts';
import { watched } from '../watch.ts';

/** How wide text is where no terminal says it. */
const USUAL_COLUMNS = 110;

/** Fewer files are checked before the checks of earlier runs are read. */
const FEW = 40;

const options = {
  format: { type: 'string', short: 'f', value: 'FORMAT', choices: formatNames, about: 'how to write what is found' },
  'fail-on': {
    type: 'string',
    value: 'SEVERITY',
    choices: ['error', 'warning', 'information', 'hint'],
    about: 'the bar: the exit code is 1 from this severity on; error, if not said',
  },
  since: {
    type: 'string',
    value: 'REF',
    about: 'tell only what is new against a git state, wherever it stands in its file',
  },
  fix: { type: 'boolean', about: 'mend everything that needs no choice in the files, then check them' },
  diff: { type: 'boolean', about: 'show as a patch what --fix would change, and change nothing' },
  watch: { type: 'boolean', about: 'check again whenever a file changes, until Ctrl-C' },
  'no-cache': { type: 'boolean', about: 'check every file anew, whatever an earlier run has checked' },
  'stdin-name': {
    type: 'string',
    value: 'PATH',
    about: 'what the standard input is called; its folder says which house rules hold',
  },
} as const;

export const verb = define({
  about: 'Check build sheets and house rules, and tell what is wrong with them.',
  operands: '[paths]',
  details: `Paths are files, folders (all of *.build.yaml, *.parts.yaml and build-sheet.config.yaml in them and below), patterns such as "shop/**/*.build.yaml", or - for the standard input; without any it is the folder you are in. Links to folders are not followed.

House rules of the folders above a sheet hold, from the top of its git work tree, or from the folder you are in where there is none.

A check that lacks a field is open, not passed: build-sheet questions lists what to ask.`,
  options,
  examples: [
    ['check', 'every sheet in this folder and below'],
    ['check --fail-on warning --format concise shop', 'a line for each finding; exit code 1 from a warning on'],
    ['check --format sarif > findings.sarif', 'for a code-scanning page'],
    ['check --since origin/main --format github', 'annotations of what a pull request brings'],
    ['check --fix quarry-wagon.build.yaml', 'mend what needs no choice, and tell what is left'],
    ['check --watch shop', 'the findings of a folder, always up to date'],
    ['check --stdin-name shop/new.build.yaml - < draft.yaml', 'a text that is no file yet, by the house rules of shop'],
  ],
  async run({ operands, chosen, io }) {
    const { fix = false, diff = false, watch = false } = chosen;
    const isInput = operands.includes(INPUT);
    if (fix && isInput) throw new Misuse('--fix needs files to write; with - use --diff.');
    if (watch && (isInput || fix || diff)) throw new Misuse('--watch goes neither with - nor with --fix or --diff.');
    const list = () => sourcesOf(operands, chosen['stdin-name'], io);
    if (watch)
      return watched(
        async () => (await list()).files,
        async (world) => check(await list(), chosen, world),
        io,
      );
    const sources = await list();
    if (diff) return patch(sources, serviceFor(sources, io), io);
    if (fix) await mend(sources, serviceFor(sources, io), io);
    return check(sources, chosen, io);
  },
});

async function check({ files, source, complaints }: Sources, chosen: Chosen<typeof options>, io: Io): Promise<Answer> {
  const { format = 'excerpt', since: ref } = chosen;
  const repairs = format === 'excerpt' || format === 'json';
  const service = serviceFor({ files }, io);
  const { roots } = service.workspace;
  const isKept = chosen['no-cache'] !== true && files.length >= FEW && io.keeping !== undefined;
  const kept = isKept && io.keeping ? new KeptChecks(io.keeping, io.cwd) : undefined;
  const progress = progressOn(io);
  const crew = io.threads && crewOf(io.threads.count, io.threads.start, { roots, repairs });
  const checking = { service, source, cwd: io.cwd, repairs, kept };
  const checked = await checkFiles(files, checking, { crew, progress: progress.tell });
  progress.end();
  const whole = { ...checked, complaints: [...complaints.map((message) => ({ message })), ...checked.complaints] };
  const result = ref === undefined ? whole : await since(ref, whole, files, roots, io.cwd);
  complainOf(result, io);
  const look = { hasColor: io.hasColor, columns: Math.min(io.columns ?? USUAL_COLUMNS, 120) };
  return { code: codeOf(result, chosen['fail-on'] ?? 'error'), out: formats[format](result, look) };
}

function serviceFor({ files }: Pick<Sources, 'files'>, { cwd }: Io): Service {
  const service = new Service();
  service.workspace.roots = houseRoots(files, cwd);
  return service;
}

async function mend({ files, source }: Sources, service: Service, io: Io): Promise<void> {
  const changes = await mended(files, service, source);
  for (const { file, after } of changes) await replace(file, after);
  if (changes.length > 0) io.complain(`mended ${changes.length === 1 ? '1 file' : `${changes.length} files`}.`);
}

async function patch({ files, source, complaints }: Sources, service: Service, io: Io): Promise<Answer> {
  const changes = await mended(files, service, source);
  for (const complaint of complaints) io.complain(complaint);
  const code = complaints.length > 0 ? ExitCode.misuse : changes.length > 0 ? ExitCode.found : ExitCode.clean;
  return { code, out: patchOf(changes, io.cwd) };
}

function complainOf({ complaints, faults }: CheckResult, io: Io): void {
  for (const { path, message } of complaints) io.complain(path ? `${path}: ${message}` : message);
  for (const { path, message } of faults)
    io.complain(`an internal fault in ${path}; the rest was checked. It is our mistake, not yours: ${message}`);
}

function codeOf(result: CheckResult, bar: Severity): ExitCode {
  if (result.faults.length > 0) return ExitCode.fault;
  if (result.complaints.length > 0) return ExitCode.misuse;
  const counts = countsOf(result);
  const isFound = severities.slice(0, severities.indexOf(bar) + 1).some((severity) => counts[severity] > 0);
  return isFound ? ExitCode.found : ExitCode.clean;
}
