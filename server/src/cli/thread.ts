import { type MessagePort, parentPort, workerData } from 'node:worker_threads';
import { filesNow } from '../disk.ts';
import { Service } from '../service.ts';
import { checkFile, holding } from './check-files.ts';
import type { Orders } from './threads.ts';

/** Checks the files it is sent, one after the other, as a thread of the program. */
export function workAsThread(): void {
  const port = parentPort as MessagePort;
  const { roots, repairs } = workerData as Orders;
  const service = new Service();
  service.workspace.roots = roots;
  const hold = holding(service);
  let before: Promise<unknown> = Promise.resolve();
  port.on('message', (files: readonly string[]) => {
    before = before.then(async () => {
      for (const file of files) {
        hold(file);
        port.postMessage([file, await checkFile(file, { service, source: filesNow, repairs })]);
      }
    });
  });
}
