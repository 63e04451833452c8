import { echo } from '../text/echo.ts';
import { marked } from '../text/place.ts';
import type { HouseFault } from '../workspace/workspace.ts';
import type { Diagnosis } from './diagnostics.ts';

/** That house rules which should hold for a sheet do not, told at the beginning of the sheet. */
export function houseFaultDiagnoses(text: string, faults: readonly HouseFault[]): Diagnosis[] {
  const start = text.search(/[^\s\ufeff]/);
  const range = marked(text, { start: Math.max(0, start), end: text.length });
  return faults.map(({ at, reason }) => ({
    code: 'house/unreadable',
    found: 'house/unreadable',
    severity: 'warning',
    message: `The house rules in "${tailOf(at.uri)}" do not hold here, or not all of them: ${echo(reason, 300)}`,
    range,
    related: [{ place: at, message: 'These house rules.' }],
  }));
}

/** File and folder of an address, as a reader knows them. */
function tailOf(uri: string): string {
  const tail = uri.split('/').slice(-2).join('/');
  try {
    return echo(decodeURIComponent(tail));
  } catch {
    return echo(tail);
  }
}
