import { describe, expect, it } from 'vitest';
import { type File, Workspace } from '../../../server/src/workspace/workspace.ts';

const SHOP = 'file:///shop/build-sheet.config.yaml';
const OTHER = 'file:///shop/build-sheet.config.yml';
const SHEET = 'file:///shop/x.build.yaml';
const absent: File = { kind: 'absent' };
const file = (text: string): File => ({ kind: 'text', text });

function opened(): Workspace {
  const workspace = new Workspace(new Set(['ignition/ballast']));
  workspace.roots = ['file:///shop'];
  workspace.put({ uri: SHEET, kind: 'sheet', version: 1, text: 'format: 1\n' });
  return workspace;
}

/** A workspace in which everything wanted was given. */
function supplied(house: File = absent): Workspace {
  const workspace = opened();
  workspace.give(SHOP, house, 0);
  workspace.give(OTHER, absent, 0);
  return workspace;
}

const units = (workspace: Workspace) => workspace.houseFor(SHEET).house.units;

describe('a workspace', () => {
  it('wants the house files of its sheets until they are given', () => {
    const workspace = opened();
    expect(workspace.wanted()).toEqual([SHOP, OTHER]);
    workspace.give(SHOP, file('units: si\n'), 0);
    expect(workspace.wanted()).toEqual([OTHER]);
    workspace.give(OTHER, absent, 0);
    expect(workspace.wanted()).toEqual([]);
    expect(units(workspace)).toBe('si');
  });

  it('knows which sheets depend on a house file', () => {
    const workspace = supplied();
    expect(workspace.dependents(SHOP)).toEqual([SHEET]);
    workspace.close(SHEET);
    expect(workspace.dependents(SHOP)).toEqual([]);
  });

  it('wants what it doubts, and takes no answer to an older question for it', () => {
    const workspace = supplied(file('units: si\n'));
    const { doubts } = workspace;
    workspace.doubt();
    expect(workspace.wanted()).toEqual([SHOP, OTHER]);
    workspace.give(SHOP, file('units: us\n'), doubts);
    expect(workspace.wanted()).toEqual([SHOP, OTHER]);
    workspace.give(SHOP, file('units: us\n'), workspace.doubts);
    workspace.give(OTHER, absent, workspace.doubts);
    expect(workspace.wanted()).toEqual([]);
    expect(units(workspace)).toBe('us');
  });

  it('doubts what was asked for the first time before the doubt', () => {
    const workspace = supplied(file('units: si\n'));
    workspace.close(SHEET);
    workspace.put({ uri: SHEET, kind: 'sheet', version: 2, text: 'format: 1\n' });
    const { doubts } = workspace;
    workspace.doubt();
    workspace.give(SHOP, file('units: si\n'), doubts);
    expect(workspace.wanted()).toContain(SHOP);
    workspace.give(SHOP, absent, workspace.doubts);
    expect(workspace.wanted()).not.toContain(SHOP);
    expect(units(workspace)).toBeUndefined();
  });

  it('keeps nothing of house rules that are gone when their sheet is opened again', () => {
    const workspace = supplied(file('units: si\n'));
    expect(units(workspace)).toBe('si');
    workspace.close(SHEET);
    workspace.put({ uri: SHEET, kind: 'sheet', version: 2, text: 'format: 1\n' });
    workspace.give(SHOP, absent, workspace.doubts);
    workspace.give(OTHER, absent, workspace.doubts);
    expect(units(workspace)).toBeUndefined();
  });

  it('tells a change only where there is one', () => {
    const same = file('units: si\n');
    const workspace = supplied(same);
    const { revision } = workspace;
    expect(workspace.give(SHOP, same, workspace.doubts)).toBe(false);
    expect(workspace.revision).toBe(revision);
    expect(workspace.give(SHOP, file('units: us\n'), workspace.doubts)).toBe(true);
    expect(workspace.revision).toBeGreaterThan(revision);
  });

  it('takes house rules as they stand in an editor over those on disk, and looks at the disk again after', () => {
    const workspace = supplied(file('units: si\n'));
    workspace.put({ uri: SHOP, kind: 'house', version: 1, text: 'units: us\n' });
    expect(units(workspace)).toBe('us');
    expect(workspace.textAt(SHOP)).toBe('units: us\n');
    workspace.close(SHOP);
    expect(workspace.wanted()).toEqual([SHOP]);
  });

  it('takes the first name of two in a folder', () => {
    const workspace = supplied(file('units: si\n'));
    workspace.give(OTHER, file('units: us\n'), 0);
    expect(units(workspace)).toBe('si');
    workspace.give(SHOP, absent, 0);
    expect(units(workspace)).toBe('us');
  });

  it('tells which house rules do not hold, and why', () => {
    const refused = supplied({ kind: 'refused', reason: 'it is a pipe.' });
    expect(refused.houseFor(SHEET).faults).toEqual([
      { of: 'house', at: { uri: SHOP, range: { start: 0, end: 0 } }, reason: 'it is a pipe.' },
    ]);
    const broken = supplied(file('units: {\n')).houseFor(SHEET).faults;
    expect(broken.map(({ at }) => at.uri)).toEqual([SHOP]);
    expect(supplied(file('units: si\n')).houseFor(SHEET).faults).toEqual([]);
  });

  it.each([
    ['longer than a house needs', `# ${'x'.repeat(200_000)}\nunits: si\n`, /kB/],
    ['of too many lines', Array.from({ length: 6000 }, (_, index) => `k${index}: 1`).join('\n'), /lines/],
    [
      'of too many fields in a line',
      `{ ${Array.from({ length: 6000 }, (_, index) => `k${index}`).join(',')} }`,
      /commas/,
    ],
  ])('refuses house rules %s before it reads them', (_, text, reason) => {
    const { house, faults } = supplied(file(text)).houseFor(SHEET);
    expect(house).toEqual({});
    expect(faults[0]?.reason).toMatch(reason);
  });

  it('forgets the files that nothing open needs any more', () => {
    const workspace = supplied(file('units: si\n'));
    workspace.close(SHEET);
    expect(workspace.textAt(SHOP)).toBeUndefined();
    expect(workspace.wanted()).toEqual([]);
  });

  it('wants other files once its folders change', () => {
    const workspace = supplied();
    workspace.roots = ['file:///'];
    expect(workspace.wanted()).toContain('file:///build-sheet.config.yaml');
  });
});
