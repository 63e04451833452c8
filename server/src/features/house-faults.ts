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
    message: `House rules for this sheet do not hold, or not all of them: ${echo(reason, 300)}`,
    range,
    related: [{ place: at, message: 'The house rules that cannot be read.' }],
  }));
}
