import type { Rule } from '../../../server/src/checking/rule.ts';
import { Service } from '../../../server/src/service.ts';
import type { File } from '../../../server/src/workspace/workspace.ts';

export const HOUSE = 'file:///shop/build-sheet.config.yaml';
export const PARTS = 'file:///shop/parts/counter.parts.yaml';
export const SHEET = 'file:///shop/x.build.yaml';

const absent: File = { kind: 'absent' };

/** A service over a shop with a house that names its catalogs, which are files of their own unless they are opened. */
export function shop(catalogs: Record<string, string>, rules?: readonly Rule[]): Service {
  const service = rules ? new Service(rules) : new Service();
  service.workspace.roots = ['file:///shop'];
  service.workspace.today = '2026-06-01';
  files.set(service, { [HOUSE]: 'catalogs: [parts/*.parts.yaml]\ncurrency: USD\n', ...catalogs });
  return service;
}

const files = new WeakMap<Service, Record<string, string>>();

/** Opens a text, and gives all that it makes the workspace want. */
export function open(service: Service, uri: string, text: string, version = 1): void {
  const kind = uri.endsWith('.parts.yaml') ? 'catalog' : uri.endsWith('.config.yaml') ? 'house' : 'sheet';
  service.workspace.put({ uri, kind, version, text });
  give(service);
}

/** Changes a file, as if it were saved, renamed or deleted elsewhere. */
export function onDisk(service: Service, changes: Record<string, string | undefined>): void {
  const all = files.get(service) ?? {};
  for (const [uri, text] of Object.entries(changes)) {
    if (text === undefined) delete all[uri];
    else all[uri] = text;
  }
  service.workspace.doubt();
  give(service);
}

function give(service: Service): void {
  const { workspace } = service;
  const given = files.get(service) ?? {};
  while (workspace.wanted().length > 0 || workspace.searches().length > 0) {
    for (const uri of workspace.wanted()) {
      const text = given[uri];
      const before = workspace.textAt(uri);
      const isSame = before !== undefined && before === text;
      workspace.give(uri, isSame ? known(uri, text) : text === undefined ? absent : known(uri, text), workspace.doubts);
    }
    for (const search of workspace.searches()) {
      const found = Object.keys(given).filter((uri) => uri.startsWith(`${search.folder}/parts/`));
      workspace.giveFound(search, found.toSorted(), workspace.doubts);
    }
  }
}

const texts = new Map<string, File>();

/** The same object for the same text, as a host gives it. */
function known(uri: string, text: string): File {
  const key = `${uri}\n${text}`;
  const file = texts.get(key) ?? { kind: 'text', text };
  texts.set(key, file);
  return file;
}
