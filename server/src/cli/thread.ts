import { type MessagePort, parentPort, workerData } from 'node:worker_threads';
import { filesNow } from '../disk.ts';
import { Service } from '../service.ts';
import { checkerOf } from './check-files.ts';
import type { Orders } from './threads.ts';

/** Checks the files it is sent, one after the other, as a thread of the program. */
export function workAsThread(): void {
  const port = parentPort as MessagePort;
  const { roots, repairs } = workerData as Orders;
  const service = new Service();
  service.workspace.roots = roots;
  const { check } = checkerOf({ service, source: filesNow, repairs });
  let before: Promise<unknown> = Promise.resolve();
  port.on('message', (files: readonly string[]) => {
    before = before.then(async () => {
      for (const file of files) port.postMessage([file, await check(file)]);
    });
  });
}
