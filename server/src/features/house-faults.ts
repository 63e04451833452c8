import { echo } from '../text/echo.ts';
import { marked } from '../text/place.ts';
import type { HouseFault } from '../workspace/workspace.ts';
import type { Diagnosis } from './diagnostics.ts';

/** That house rules which should hold for a sheet do not, told at the beginning of the sheet. */
export function houseFaultDiagnoses(text: string, faults: readonly HouseFault[]): Diagnosis[] {
  const start = text.search(/[^\s\ufeff]/);
  const range = marked(text, { start: Math.max(0, start), end: text.length });
  return faults.map(({ of, at, reason }) => {
    const isCatalog = of === 'catalog';
    const told = `"${tailOf(at.uri)}" ${isCatalog ? 'give no parts' : 'do not hold here, or not all of them'}`;
    return {
      code: isCatalog ? 'catalog/unreadable' : 'house/unreadable',
      found: isCatalog ? 'catalog/unreadable' : 'house/unreadable',
      severity: 'warning' as const,
      message: `The ${isCatalog ? 'catalogs' : 'house rules'} in ${told}: ${echo(reason, 300)}`,
      range,
      related: [{ place: at, message: isCatalog ? 'These catalogs.' : 'These house rules.' }],
    };
  });
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
