import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';
import { filesOnDisk, searchOnDisk } from '../../../server/src/disk.ts';
import type { Explanation } from '../../../server/src/features/hover.ts';
import { markdown } from '../../../server/src/report/markdown.ts';
import { Service } from '../../../server/src/service.ts';
import { inOneGo } from '../../../server/src/text/steps.ts';
import { kindOf } from '../../../server/src/workspace/kind.ts';
import { supply } from '../../../server/src/workspace/supply.ts';

const files = readdirSync('samples', { recursive: true, encoding: 'utf8' }).filter(
  (file) => kindOf(`file:///${file}`, '') !== undefined,
);

/** The lines a hover shows: not the one that only tells Markdown where the head of a table ends. */
function shownLines(explanation: Explanation | undefined): string[] {
  const lines = markdown(explanation?.page ?? []).split('\n');
  return lines.filter((line) => line !== '' && !/^\|[-:|]+\|$/.test(line));
}

/** A service with a sample open among its house rules and catalogs. */
async function opened(file: string): Promise<{ service: Service; uri: string; text: string }> {
  const uri = pathToFileURL(resolve('samples', file)).href;
  const text = readFileSync(join('samples', file), 'utf8');
  const service = new Service();
  service.workspace.roots = [pathToFileURL(resolve('samples')).href];
  service.workspace.put({ uri, kind: kindOf(uri, '') ?? 'sheet', version: 1, text });
  await supply(service.workspace, { read: filesOnDisk(), search: searchOnDisk() });
  return { service, uri, text };
}

it.each(files)('no hover shows more than ten lines, none of them a wall: %s', async (file) => {
  const { service, uri, text } = await opened(file);
  const long: string[] = [];
  for (const { index } of text.matchAll(/[\w-]+(?=:)|(?<=use: )\S+/g)) {
    const lines = shownLines(service.explain(uri, index));
    if (lines.length > 10 || lines.some((line) => line.length > 400)) long.push(`${index}: ${lines.join('\n')}`);
  }
  expect(long).toEqual([]);
});

it('shows no more where the needs of a part are told as well', async () => {
  const { service, uri, text } = await opened('counter/counter-call.build.yaml');
  for (const { index } of text.matchAll(/(throttle-body|injectors|pump|feed|regulator|pump-circuit)(?=:)/g))
    expect(shownLines(inOneGo(service.explained(uri, index))).length).toBeLessThanOrEqual(10);
});
