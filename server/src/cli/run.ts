import { version } from '../../../package.json';
import { verbs } from '../generated/verbs.ts';
import { programHelp, verbHelp } from './help.ts';
import type { Io } from './io.ts';
import { near, parse } from './parse.ts';
import { type Answer, ExitCode, Misuse, type Verb } from './verb.ts';

/** Runs one command line, and tells what went wrong with it in one line. */
export async function run(args: readonly string[], io: Io): Promise<Answer> {
  try {
    return await answer(args, io);
  } catch (error) {
    const isMisuse = error instanceof Misuse;
    const message = isMisuse ? error.message : `an internal fault; it is our mistake, not yours. ${faultOf(error)}`;
    io.complain(message);
    const code = isMisuse ? ExitCode.misuse : ExitCode.fault;
    return wantsJson(args)
      ? { code, out: `${JSON.stringify({ version: 1, errors: [{ message }] }, null, 2)}\n` }
      : { code };
  }
}

/** Whether JSON is asked for, by a command line that may not be readable otherwise. */
function wantsJson(args: readonly string[]): boolean {
  return /(^| )(--format|-f)[= ]?json( |$)/.test(args.join(' '));
}

function faultOf(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}

async function answer([name, ...args]: readonly string[], io: Io): Promise<Answer> {
  if (name === '--version' || name === '-V') return { code: ExitCode.clean, out: `build-sheet ${version}\n` };
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') return help(args[0]);
  const verb = await verbNamed(name);
  const { operands, chosen, wantsHelp } = parse(args, verb.options);
  return wantsHelp ? help(name) : verb.run({ operands, chosen, io });
}

async function help(name: string | undefined): Promise<Answer> {
  const out = name === undefined ? programHelp(await allVerbs()) : verbHelp(name, await verbNamed(name));
  return { code: ExitCode.clean, out };
}

async function verbNamed(name: string): Promise<Verb> {
  if (isVerb(name)) return (await verbs[name]()).verb;
  const names = Object.keys(verbs);
  const meant = near(name, names);
  const list = meant ? `did you mean ${meant}?` : `there are ${names.join(', ')}.`;
  throw new Misuse(`there is no verb "${name}"; ${list}`);
}

function isVerb(name: string): name is keyof typeof verbs {
  return Object.hasOwn(verbs, name);
}

/** Every verb by its name. */
export async function allVerbs(): Promise<Record<string, Verb>> {
  const all: Record<string, Verb> = {};
  for (const [name, load] of Object.entries(verbs)) all[name] = (await load()).verb;
  return all;
}
