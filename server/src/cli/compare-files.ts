import type { Told } from '../features/told.ts';
import { type NamedComparison, outcomeOf } from '../report/comparison-page.ts';
import { Service } from '../service.ts';
import { inOneGo } from '../text/steps.ts';
import { opened, reasonOf } from './check-file.ts';
import { behindOf, holding, shownPath } from './check-files.ts';
import type { Side } from './compare-sides.ts';
import { houseRoots } from './house-roots.ts';
import type { Io } from './io.ts';

/** A sheet that both sides have, one that only the later has, or one that only the earlier has. */
export type ComparedSheet = { path: string; title?: string } & (
  | { kind: 'both'; comparison: NamedComparison; renamedFrom?: string }
  | { kind: 'same' }
  | { kind: 'added' | 'removed'; findings: readonly Told[] }
);

type Open = { name: string; uri: string; path: string; text: string };

/** Compares sheet by sheet; what cannot be read is told, and makes the second result true. */
export async function comparedSheets(
  before: Side,
  after: Side,
  io: Io,
): Promise<{ sheets: ComparedSheet[]; isIncomplete: boolean }> {
  const services = [serviceFor(before, io), serviceFor(after, io)] as const;
  const holds = new Map(services.map((service) => [service, holding(service)]));
  let isIncomplete = false;
  const open = async (side: Side, service: Service, name: string): Promise<Open | undefined> => {
    const file = side.sheets.get(name);
    if (file === undefined) return undefined;
    holds.get(service)?.(file);
    const found = await opened(file, service, side.source);
    const path = shownPath(file, io.cwd);
    if (found.kind === 'text') return { name, uri: found.uri, path, text: found.text };
    io.complain(`${path}: ${reasonOf(found)}`);
    isIncomplete = true;
    return undefined;
  };
  const sheets: ComparedSheet[] = [];
  const [lone, lonely]: [Open[], Open[]] = [[], []];
  for (const name of new Set([...after.sheets.keys(), ...before.sheets.keys()])) {
    const old = await open(before, services[0], name);
    const now = await open(after, services[1], name);
    if (old && now) {
      sheets.push(compared(services, old, now));
      services[0].close(old.uri);
      services[1].close(now.uri);
    } else if (old) lone.push(old);
    else if (now) lonely.push(now);
  }
  return { sheets: [...sheets, ...onlyOnOneSide(services, lone, lonely)], isIncomplete };
}

type Services = readonly [before: Service, after: Service];

function serviceFor(side: Side, { cwd }: Io): Service {
  const service = new Service();
  service.workspace.roots = houseRoots([...side.sheets.values()], cwd);
  return service;
}

function compared([before, after]: Services, old: Open, now: Open, renamedFrom?: string): ComparedSheet {
  const about = { path: now.path, ...titleOf(after, now) };
  if (old.text === now.text && behindOf(old.uri, before) === behindOf(now.uri, after))
    return { ...about, kind: 'same' };
  const comparison = inOneGo(after.compare(now.uri, old.uri, before));
  if (!comparison || outcomeOf(comparison) === 'same') return { ...about, kind: 'same' };
  return { ...about, kind: 'both', comparison, ...(renamedFrom !== undefined && { renamedFrom }) };
}

/** Sheets of one side only; two of one title, or of one text, are one sheet under another name. */
function onlyOnOneSide(services: Services, olds: readonly Open[], nows: readonly Open[]): ComparedSheet[] {
  const [before, after] = services;
  const left = new Set(olds);
  const sheets = nows.map((now): ComparedSheet => {
    const { title } = titleOf(after, now);
    const isOne = (old: Open) => old.text === now.text || (title !== undefined && titleOf(before, old).title === title);
    const old = [...left].find(isOne);
    if (!old) return { path: now.path, ...titleOf(after, now), kind: 'added', findings: after.told(now.uri) };
    left.delete(old);
    return compared(services, old, now, old.path);
  });
  const removed = [...left].map(
    (old): ComparedSheet => ({
      path: old.path,
      ...titleOf(before, old),
      kind: 'removed',
      findings: before.told(old.uri),
    }),
  );
  return [...sheets, ...removed];
}

function titleOf(service: Service, { uri }: Open): { title?: string } {
  const title = service.title(uri);
  return title === undefined ? {} : { title };
}
