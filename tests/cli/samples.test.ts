import { readdirSync } from 'node:fs';
import { beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import { version } from '../../package.json';
import { formatNames } from '../../server/src/cli/formats/formats.ts';
import { program } from './program.ts';

const samples = readdirSync('samples', { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.build.yaml'))
  .map((name) => name.replaceAll('\\', '/'))
  .toSorted();

/** How old the prices of a catalog are depends on the day. */
beforeEach(() => {
  vi.useFakeTimers({ toFake: ['Date'], now: new Date('2026-10-01T12:00:00Z') });
  onTestFinished(() => void vi.useRealTimers());
});

describe.each(formatNames)('every sample as %s', (format) => {
  it.each(samples)('%s', async (name) => {
    const { out, complaints } = await program(['check', '--format', format, `samples/${name}`]);
    expect(complaints).toBe('');
    const kept = name.replaceAll('/', '-').split('.')[0];
    await expect(out.replaceAll(version, '0.0.0')).toMatchFileSnapshot(`samples/${kept}.${format}.txt`);
  });
});
