import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { Service } from '../../server/src/service.ts';
import { judgeActions } from './actions.ts';
import { answers, judgeAnswers } from './answers.ts';
import { anEdit, cursorOf, type Edit, edited } from './edit.ts';
import { must } from './must.ts';
import { sources } from './sources.ts';

/** A text that is opened and edited, version after version, in a server that keeps what it knows. */
export type Session = { text: string; edits: Edit[] };

/** What was done in all sessions so far. */
export type Tally = { edits: number; compared: number; withActions: number; slowest: number };

export const aSession: fc.Arbitrary<Session> = fc.record({
  text: fc.constantFrom(...sources()),
  edits: fc.array(anEdit, { minLength: 1, maxLength: 40, size: 'max' }),
});

/** Milliseconds that one edit with all answers and actions may take on any machine. */
const LONGEST = 60_000;

const URI = 'file:///shop/one.build.yaml';

/**
 * Every answer of every version is judged. What a service keeps wrongly stays wrong until something touches it, so that it
 * is found at one of the versions compared with a service just started: one in five, and always the last.
 * @throws Error at the first version of the text for which something promised does not hold
 */
export function live(session: Session, tally: Tally): void {
  const [opened, ...texts] = versions(session);
  const service = serviceWith(opened);
  service.diagnose(URI);
  for (const [index, text] of texts.entries()) {
    const edit = session.edits[index] as Edit;
    const start = performance.now();
    const cursor = cursorOf(text, edit);
    service.workspace.put({ uri: URI, kind: 'sheet', version: index + 1, text });
    const told = answers(service, URI, cursor);
    judgeAnswers(told, text, cursor);
    if (edit.withFresh || index === texts.length - 1) {
      const fresh = answers(serviceWith(text), URI, cursor);
      for (const [name, answer] of Object.entries(told))
        must(isDeepStrictEqual(answer, fresh[name as keyof typeof fresh]), `${name}: not as of a server just started`);
      tally.compared++;
    }
    if (edit.withActions) judgeActions(service, URI, text);
    tally.edits++;
    if (edit.withActions) tally.withActions++;
    const taken = performance.now() - start;
    must(taken < LONGEST, `an edit took ${Math.round(taken)} ms`);
    tally.slowest = Math.max(tally.slowest, taken);
  }
}

/** The texts of a session, version by version. */
export function versions({ text, edits }: Session): [string, ...string[]] {
  const all: [string, ...string[]] = [text];
  for (const edit of edits)
    all.push(edit.goesBack ? (all[edit.at % all.length] as string) : edited(all.at(-1) as string, edit));
  return all;
}

function serviceWith(text: string): Service {
  const service = new Service();
  service.workspace.put({ uri: URI, kind: 'sheet', version: 0, text });
  return service;
}
