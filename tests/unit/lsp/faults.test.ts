import { afterEach, describe, expect, it } from 'vitest';
import type { ClientCapabilities } from 'vscode-languageserver';
import type { RuleId, StageRule } from '../../../server/src/checking/rule.ts';
import { rules } from '../../../server/src/generated/rules.ts';
import type { Host } from '../../../server/src/lsp/session.ts';
import { Service } from '../../../server/src/service.ts';
import { codes, pulls, until, waits } from '../../protocol/client.ts';
import { InProcess, nothing } from './in-process.ts';

const points = 'format: 1\nignition: { trigger: contact-points }\n';
const position = { line: 1, character: 2 };
const range = { start: position, end: position };

/** A service in which one of its answers is at fault. */
function broken(...methods: readonly (keyof Service & string)[]): Service {
  const service = new Service();
  for (const method of methods) {
    Object.assign(service, {
      [method]: () => {
        throw new Error(`${method} is broken`);
      },
    });
  }
  return service;
}

let client: InProcess | undefined;
afterEach(() => client?.end());

async function started(service: Service, capabilities: ClientCapabilities = pulls, host: Host = nothing) {
  client = await InProcess.start(service, host, capabilities);
  await client.open(points);
  return client;
}

describe('a fault of our own', () => {
  it.each([
    ['explain', 'hover', { position }, null],
    ['complete', 'completion', { position }, null],
    ['repairs', 'codeAction', { range, context: { diagnostics: [] } }, []],
    ['outline', 'documentSymbol', {}, []],
    ['folds', 'foldingRange', {}, []],
    ['links', 'documentLink', {}, []],
  ] as const)(
    'in %s leaves %s without an answer, is told in the text once, and logged',
    async (method, request, params, nothingToTell) => {
      const client = await started(broken(method));
      expect(await client.ask(request, params)).toEqual(nothingToTell);
      expect(await client.ask(request, params)).toEqual(nothingToTell);
      await until(() => client.refreshes === 1);
      const found = await client.pull();
      expect(codes(found).filter((code) => code === 'internal-fault')).toHaveLength(1);
      expect(codes(found)).toContain('ignition/contact-points');
      expect(client.logged).toHaveLength(1);
      expect(client.logged[0]).toMatch(
        new RegExp(`^Internal fault in [\\s\\S]*To report it[\\s\\S]*${method} is broken[\\s\\S]*faults\\.test`),
      );
      await client.change(`${points}# more\n`, 2);
      expect(codes(await client.pull())).not.toContain('internal-fault');
    },
  );

  it('in the check is one diagnostic, pulled or published, and everything else goes on', async () => {
    const pulling = await started(broken('diagnose'));
    expect(codes(await pulling.pull())).toEqual(['internal-fault']);
    expect(await pulling.ask('hover', { position })).not.toBeNull();
    pulling.end();
    const waiting = await started(broken('diagnose'), waits);
    const { diagnostics } = await until(() => waiting.published[0]);
    expect(codes(diagnostics)).toEqual(['internal-fault']);
    expect(waiting.logged).toHaveLength(1);
  });

  it('in a rule is one diagnostic, and every other rule is asked', async () => {
    const throwing = (id: RuleId): StageRule => ({
      ...{
        id,
        title: 'Broken',
        severity: 'error',
        why: 'A test.',
        inspect: 'Look.',
        remedy: 'None.',
        source: 'this test',
      },
      check: () => {
        throw new Error(`${id} is broken`);
      },
    });
    const client = await started(new Service([throwing('engine/broken'), ...rules, throwing('plan/broken')]));
    const found = await client.pull();
    expect(codes(found)).toContain('ignition/contact-points');
    const told = found.filter(({ code }) => code === 'internal-fault').map(({ message }) => message);
    expect(told).toEqual([expect.stringContaining('"engine/broken"'), expect.stringContaining('"plan/broken"')]);
    expect(client.logged).toHaveLength(2);
    expect(codes(await client.pull())).toEqual(codes(found));
    expect(client.logged).toHaveLength(2);
  });

  it('of the host is no end either', async () => {
    const unreadable = { ...nothing, read: () => Promise.reject(new Error('the disk is gone')) };
    const client = await started(new Service(), pulls, unreadable);
    expect(codes(await client.pull())).toEqual(['internal-fault']);
    expect(await client.ask('documentSymbol')).toHaveLength(2);
    expect(client.logged[0]).toContain('the disk is gone');
  });

  it('is gone with the version it was met in, also for a client that cannot pull', async () => {
    const client = await started(broken('explain'), waits);
    await client.ask('hover', { position });
    await until(() => codes(client.published.at(-1)?.diagnostics ?? []).includes('internal-fault'));
    await client.change('format: 1\n', 2);
    await until(() => client.published.at(-1)?.version === 2);
    expect(codes(client.published.at(-1)?.diagnostics ?? [])).not.toContain('internal-fault');
  });
});
