import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { foldsOf } from '../../../server/src/features/folding.ts';
import { type OutlineItem, outlineOf } from '../../../server/src/features/symbols.ts';
import type { Range } from '../../../server/src/text/place.ts';
import { read } from '../sheet/marked.ts';

/** The outline as lines: name, detail, and the text that is selected. */
function outline(text: string): string[] {
  const lines: string[] = [];
  const walk = (items: readonly OutlineItem[], around: Range, indent: string) => {
    for (const { name, detail, selection, range, children } of items) {
      const selected = text.slice(selection.start, selection.end);
      lines.push(`${indent}${name}${detail === undefined ? '' : ` (${detail})`} at ${selected}`);
      expect(isInside(range, around), name).toBe(true);
      expect(isInside(selection, range), name).toBe(true);
      walk(children, range, `${indent}  `);
    }
  };
  walk(outlineOf(text, read(text).root), { start: 0, end: text.length }, '');
  return lines;
}

function isInside(inner: Range, outer: Range): boolean {
  return outer.start <= inner.start && inner.end <= outer.end;
}

/** Folds as `first-last`, by lines from one. */
function folds(text: string): string[] {
  const lines = TextDocument.create('', '', 0, text);
  const line = (offset: number) => lines.positionAt(offset).line + 1;
  return foldsOf(text, read(text).root).map(
    ({ start, end, comment }) => `${line(start)}-${line(end)}${comment ? ' comment' : ''}`,
  );
}

describe('the outline', () => {
  it('has sections, fields with their values, and items by their names', () => {
    const text = [
      'format: 1',
      'engine: { cylinders: 8, displacement: 4.9 L }',
      'stages:',
      '  - { name: now, power: 245 hp }',
      '  - power: 300 hp',
      'silence:',
      '  - { rule: a/b, reason: c }',
      'notes:',
      '  - { note: dry }',
    ].join('\n');
    expect(outline(text)).toEqual([
      'format (1) at format',
      'engine at engine',
      '  cylinders (8) at cylinders',
      '  displacement (4.9 L) at displacement',
      'stages at stages',
      '  now at { name: now, power: 245 hp }',
      '    name (now) at name',
      '    power (245 hp) at power',
      '  Stage 2 at power: 300 hp',
      '    power (300 hp) at power',
      'silence at silence',
      '  a/b at { rule: a/b, reason: c }',
      '    rule (a/b) at rule',
      '    reason (c) at reason',
      'notes at notes',
      '  dry at { note: dry }',
      '    note (dry) at note',
    ]);
  });

  it('knows a stage from a section', () => {
    const text = 'stages:\n  - { name: now }\n';
    const [stages] = outlineOf(text, read(text).root);
    expect([stages?.kind, stages?.children[0]?.kind]).toEqual(['list', 'stage']);
  });

  it('leaves out what is only taken over, and points of a table', () => {
    expect(
      outline(
        'x-e: &e { cylinders: 8 }\nengine: { <<: *e }\nfuel-system: { pump: { flow-at: [[40 psi, 270 L/h]] } }\n',
      ),
    ).toEqual([
      'x-e at x-e',
      '  cylinders (8) at cylinders',
      'engine at engine',
      'fuel-system at fuel-system',
      '  pump at pump',
      '    flow-at at flow-at',
    ]);
  });

  it('never has an empty name', () => {
    expect(outline('"": 1\nstages: [{ name: "" }]\n').map((line) => line.trim().split(' ')[0])).toEqual([
      '(empty)',
      'stages',
      'item',
      'name',
    ]);
  });

  it('shows a value as it is written, and none where it is not known', () => {
    expect(outline('format: 1\nengine: { cylinders: ~, idle: .inf }\n')).toEqual([
      'format (1) at format',
      'engine at engine',
      '  cylinders at cylinders',
      '  idle (.inf) at idle',
    ]);
  });

  it('stays as far as it can be read while a text is broken', () => {
    expect(outline('format: 1\nengine: { cylinders: 8\nstages:\n  - { name: now }\n')[1]).toBe('engine at engine');
  });
});

describe('folding', () => {
  it('has sections, items and braces over several lines', () => {
    const text = [
      'format: 1',
      'engine:',
      '  cylinders: 8',
      '  intake: {',
      '    pads: 1',
      '  }',
      '',
      'stages:',
      '  - name: now',
      '    power: 245 hp',
      '  - { name: later }',
      '',
    ].join('\n');
    expect(folds(text)).toEqual(['2-6', '4-6', '8-11', '9-10']);
    expect(folds(text.replaceAll('\n', '\r\n'))).toEqual(['2-6', '4-6', '8-11', '9-10']);
  });

  it('has comments that follow each other', () => {
    expect(folds('# one\n# two\n\n# three\nformat: 1\n  # four\n  # five\n')).toEqual(['1-2 comment', '6-7 comment']);
  });

  it('is bounded, comments included', () => {
    expect(folds('# one\n# two\n\n'.repeat(6000))).toHaveLength(5000);
  });

  it('has nothing behind an alias', () => {
    expect(folds('x-e: &e\n  cylinders: 8\n  idle: 750 rpm\nengine: *e\n')).toEqual(['1-3']);
  });
});
