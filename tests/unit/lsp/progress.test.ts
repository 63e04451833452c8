import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Connection } from 'vscode-languageserver';
import { Progress } from '../../../server/src/lsp/progress.ts';

beforeEach(() => void vi.useFakeTimers({ toFake: ['performance'] }));
afterEach(() => void vi.useRealTimers());

it('shows work after a second, by what is done of all: 10 of 40 is a quarter', async () => {
  const told: unknown[] = [];
  const reporter = {
    begin: (...given: unknown[]) => told.push(['begin', ...given]),
    report: (...given: unknown[]) => told.push(['report', ...given]),
    done: () => told.push(['done']),
    token: { onCancellationRequested: () => {} },
  };
  const connection = { window: { createWorkDoneProgress: async () => reporter } };
  const progress = new Progress(connection as unknown as Connection, 'Checking', () => {});
  await progress.update({ left: 40, all: 40 });
  expect(told).toEqual([]);
  vi.advanceTimersByTime(1000);
  await progress.update({ left: 30, all: 40 });
  await progress.update({ left: 0, all: 40 });
  await progress.update({ left: 0, all: 0 });
  await progress.end();
  expect(told).toEqual([
    ['begin', 'Checking', 25, undefined, true],
    ['report', 25, '10 of 40'],
    ['report', 100, '40 of 40'],
    ['report', 100, '0 of 0'],
    ['done'],
  ]);
});
