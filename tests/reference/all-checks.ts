import { readdirSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { Check } from './check.ts';

/** The checks of every `*.checks.ts` beside this file, by section and in the order of their files. */
export async function allChecks(): Promise<Check[]> {
  const folder = new URL('./', import.meta.url);
  const files = readdirSync(folder)
    .filter((file) => file.endsWith('.checks.ts'))
    .sort();
  const checks: Check[] = [];
  for (const file of files) {
    const topic = (await import(/* @vite-ignore */ pathToFileURL(new URL(file, folder).pathname).href)) as {
      checks: Check[];
    };
    checks.push(...topic.checks);
  }
  return checks.sort((a, b) => a.section - b.section);
}
