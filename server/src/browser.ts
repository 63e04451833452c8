import { listen } from './lsp/worker.ts';

/** What a worker has of its surroundings. */
declare const self: {
  addEventListener(kind: 'error', take: (event: { error: unknown }) => void): void;
  addEventListener(kind: 'unhandledrejection', take: (event: { reason: unknown }) => void): void;
};

const onFault = listen(globalThis);
self.addEventListener('error', ({ error }) => onFault(error));
self.addEventListener('unhandledrejection', ({ reason }) => onFault(reason));
