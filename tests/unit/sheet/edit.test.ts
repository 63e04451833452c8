import { describe, expect, it } from 'vitest';
import { applyEdits, type Change, editsFor } from '../../../server/src/sheet/edit.ts';
import { read } from './marked.ts';

const placement = { set: ['fuel-system', 'pump', 'placement'], to: 'in-tank' };
const cylinders = { set: ['engine', 'cylinders'], to: 6 };
const title = { set: ['title'], to: 'b' };

/** A sheet before and after the changes; nothing where the changes have no place in it. */
type Case = [what: string, before: string, changes: Change[], after: string | undefined];

const replacing: Case[] = [
  ['a plain value', 'title: a # mine\n', [title], 'title: b # mine\n'],
  ['a quoted value, in its quotes', 'title: "a" # mine\n', [title], 'title: "b" # mine\n'],
  [
    'a quoted value that then needs none of its quotes',
    "title: 'a'\n",
    [{ set: ['title'], to: "it's" }],
    "title: it's\n",
  ],
  ['a value that then needs quotes', 'title: a\n', [{ set: ['title'], to: 'x: y #z' }], 'title: "x: y #z"\n'],
  [
    'a value in braces with a comma in it',
    'notes: [{ note: a }]\n',
    [{ set: ['notes', 0, 'note'], to: 'leak test, dry' }],
    'notes: [{ note: "leak test, dry" }]\n',
  ],
  ['a value after a tab', 'title: a\t# mine\n', [title], 'title: b\t# mine\n'],
  ['a value on several lines', 'title: a\n  b # mine\nsite: {}\n', [title], 'title: b # mine\nsite: {}\n'],
  ['a block of text', 'title: |\n  a\n  c\nsite: {}\n', [title], 'title: b\nsite: {}\n'],
  ['a folded block at the end', 'site: {}\ntitle: >-\n  a\n  c\n', [title], 'site: {}\ntitle: b\n'],
  ['an anchored value, keeping the anchor', 'title: &t a\nx-a: *t\n', [title], 'title: &t b\nx-a: *t\n'],
  ['an alias', 'x-a: &t a\ntitle: *t\n', [title], 'x-a: &t a\ntitle: b\n'],
  ['the value of a quoted key', '"title": a\n', [title], '"title": b\n'],
  ['the value of an explicit key', '? title\n: a\n', [title], '? title\n: b\n'],
  ['a null', 'title: ~\n', [title], 'title: b\n'],
  [
    'a truth',
    'fuel-system: { tank: { vent: false } }\n',
    [{ set: ['fuel-system', 'tank', 'vent'], to: true }],
    'fuel-system: { tank: { vent: true } }\n',
  ],
  [
    'a list in lines',
    'vacuum-reference:\n  shared-with:\n    - pcv\n    - distributor\n  port: manifold\n',
    [{ set: ['vacuum-reference', 'shared-with'], to: ['pcv'] }],
    'vacuum-reference:\n  shared-with:\n    - pcv\n  port: manifold\n',
  ],
  [
    'a list in brackets',
    'vacuum-reference: { shared-with: [pcv, distributor] }\n',
    [{ set: ['vacuum-reference', 'shared-with'], to: [] }],
    'vacuum-reference: { shared-with: [] }\n',
  ],
  [
    'a mapping in lines',
    'engine:\n  intake:\n    pads: 1\n    flange: two-bore\n  idle: 750 rpm\n',
    [{ set: ['engine', 'intake'], to: { pads: 2 } }],
    'engine:\n  intake:\n    pads: 2\n  idle: 750 rpm\n',
  ],
  [
    'a field of an alias, where its anchor stands',
    'x-a: &e { cylinders: 8 }\nengine: *e\n',
    [cylinders],
    'x-a: &e { cylinders: 6 }\nengine: *e\n',
  ],
];

const inserting: Case[] = [
  ['at the end', 'site: {}\n# end\n', [title], 'site: {}\ntitle: b\n# end\n'],
  ['after a last line without an end', 'site: {}', [title], 'site: {}\ntitle: b'],
  ['before the end of the document', 'site: {}\n...\n', [title], 'site: {}\ntitle: b\n...\n'],
  ['into an empty text', '', [title], 'title: b\n'],
  ['after comments alone', '# mine', [title], '# mine\ntitle: b\n'],
  ['into a sheet in braces', '{ format: 1 }\n', [title], '{ format: 1, title: b }\n'],
  ['where a value is missing', 'title:\nsite: {}\n', [title], 'title: b\nsite: {}\n'],
  ['before a comment where a value is missing', 'title: # later\n', [title], 'title: b # later\n'],
  [
    'with the sections around it',
    'format: 1\n',
    [placement],
    'format: 1\nfuel-system:\n  pump: { placement: in-tank }\n',
  ],
  [
    'several in new sections together',
    'format: 1\n',
    [
      placement,
      { set: ['fuel-system', 'pump', 'quantity'], to: 2 },
      { set: ['fuel-system', 'regulator', 'pressure'], to: '58 psi' },
    ],
    'format: 1\nfuel-system:\n  pump: { placement: in-tank, quantity: 2 }\n  regulator: { pressure: 58 psi }\n',
  ],
  [
    'into a section without fields yet',
    'fuel-system:\n  pump: # none yet\n  feed: { length: 5 m }\n',
    [placement],
    'fuel-system:\n  pump:\n    placement: in-tank # none yet\n  feed: { length: 5 m }\n',
  ],
  ['into an empty section', 'fuel-system:\n', [placement], 'fuel-system:\n  pump: { placement: in-tank }\n'],
  ['into empty braces', 'fuel-system: {}\n', [placement], 'fuel-system: { pump: { placement: in-tank } }\n'],
  [
    'into a section without fields in braces',
    'fuel-system: { pump: , feed: { length: 5 m } }\n',
    [placement],
    'fuel-system: { pump: { placement: in-tank } , feed: { length: 5 m } }\n',
  ],
  [
    'into a section in braces that has not even a colon',
    'fuel-system: { pump, feed: { length: 5 m } }\n',
    [placement],
    'fuel-system: { pump: { placement: in-tank }, feed: { length: 5 m } }\n',
  ],
  [
    'into braces',
    'fuel-system: { pump: { quantity: 1 } } # mine\n',
    [placement],
    'fuel-system: { pump: { quantity: 1, placement: in-tank } } # mine\n',
  ],
  [
    'into braces with a comma at the end',
    'fuel-system: { pump: { quantity: 1, } }\n',
    [placement],
    'fuel-system: { pump: { quantity: 1, placement: in-tank, } }\n',
  ],
  [
    'into braces over several lines',
    'fuel-system: { pump: {\n  quantity: 1, # one\n  current: 9 A # at most\n  } }\n',
    [placement],
    'fuel-system: { pump: {\n  quantity: 1, # one\n  current: 9 A, placement: in-tank # at most\n  } }\n',
  ],
  [
    'into lines, before the comments that follow',
    'fuel-system:\n  pump:\n    quantity: 1 # one\n    # more of the pump\n\n  feed: { length: 5 m }\n',
    [placement],
    'fuel-system:\n  pump:\n    quantity: 1 # one\n    placement: in-tank\n    # more of the pump\n\n  feed: { length: 5 m }\n',
  ],
  [
    'after a list',
    'fuel-system:\n  pump:\n    flow-at:\n      - [40 psi, 270 L/h]\n      - [60 psi, 225 L/h]\nsite: {}\n',
    [placement],
    'fuel-system:\n  pump:\n    flow-at:\n      - [40 psi, 270 L/h]\n      - [60 psi, 225 L/h]\n    placement: in-tank\nsite: {}\n',
  ],
  [
    'after a block of text',
    'fuel-system:\n  pump:\n    name: |\n      abc\n      def\n\nsite: {}\n',
    [placement],
    'fuel-system:\n  pump:\n    name: |\n      abc\n      def\n    placement: in-tank\n\nsite: {}\n',
  ],
  [
    'into items of a list',
    'stages:\n  - name: a\n    power: 5 hp\n  - { name: b }\n',
    [
      { set: ['stages', 0, 'induction'], to: 'roots' },
      { set: ['stages', 1, 'induction'], to: 'roots' },
    ],
    'stages:\n  - name: a\n    power: 5 hp\n    induction: roots\n  - { name: b, induction: roots }\n',
  ],
  [
    'an item at the end of a list',
    'stages:\n  - name: a\n    power: 5 hp # now\nsite: {}\n',
    [{ set: ['stages', 1], to: { name: 'b', power: '6 hp' } }],
    'stages:\n  - name: a\n    power: 5 hp # now\n  - { name: b, power: 6 hp }\nsite: {}\n',
  ],
  [
    'an item and a field of the item before it',
    'stages:\n- name: a\n',
    [
      { set: ['stages', 1], to: { name: 'b' } },
      { set: ['stages', 0, 'power'], to: '5 hp' },
    ],
    'stages:\n- name: a\n  power: 5 hp\n- { name: b }\n',
  ],
  [
    'an item into empty brackets',
    'vacuum-reference: { shared-with: [] }\n',
    [{ set: ['vacuum-reference', 'shared-with', 0], to: 'pcv' }],
    'vacuum-reference: { shared-with: [pcv] }\n',
  ],
  [
    'over a field that is taken over by a merge',
    'x-a: &e { cylinders: 8 }\nengine:\n  <<: *e\n  idle: 750 rpm\n',
    [cylinders],
    'x-a: &e { cylinders: 8 }\nengine:\n  <<: *e\n  idle: 750 rpm\n  cylinders: 6\n',
  ],
  [
    'beside a merge alone',
    'x-a: &e { cylinders: 8 }\nengine:\n  <<: *e # as ever\nsite: {}\n',
    [cylinders],
    'x-a: &e { cylinders: 8 }\nengine:\n  <<: *e # as ever\n  cylinders: 6\nsite: {}\n',
  ],
  [
    'beside a merge in braces',
    'x-a: &e { cylinders: 8 }\nengine: { <<: *e }\n',
    [cylinders],
    'x-a: &e { cylinders: 8 }\nengine: { <<: *e, cylinders: 6 }\n',
  ],
  ['nowhere in a text that is no sheet', '- a\n', [title], undefined],
  ['nowhere under a value', 'fuel: e85\n', [{ set: ['fuel', 'grade'], to: 'e85' }], undefined],
  ['nowhere in a list that is not there', 'format: 1\n', [{ set: ['stages', 0, 'power'], to: '5 hp' }], undefined],
];

/** All that is said of a pump goes, and the name of a part comes in its place. */
const use = { set: ['fuel-system', 'pump', 'use'], to: 'wren-110' };
const usedFor = (...gone: string[]): Change[] => [
  ...gone.map((name) => ({ remove: ['fuel-system', 'pump', name] })),
  use,
];

const inPlaceOfAll: Case[] = [
  [
    'of the one field in braces',
    'fuel-system: { pump: { placement: in-tank } } # mine\n',
    usedFor('placement'),
    'fuel-system: { pump: { use: wren-110 } } # mine\n',
  ],
  [
    'of several fields in braces',
    'fuel-system:\n  pump: { placement: in-tank, flow-at: [[40 psi, 270 L/h]], current: 9 A } # mine\n',
    usedFor('placement', 'flow-at', 'current'),
    'fuel-system:\n  pump: { use: wren-110 } # mine\n',
  ],
  [
    'of the one line',
    'fuel-system:\n  pump:\n    placement: in-tank # by phone\n  feed-rise: 0.5 m\n',
    usedFor('placement'),
    'fuel-system:\n  pump:\n    use: wren-110\n    # by phone\n  feed-rise: 0.5 m\n',
  ],
  [
    'of several lines, a list among them',
    'fuel-system:\n  pump:\n    # in the tank\n    placement: in-tank\n    flow-at:\n      - [40 psi, 270 L/h]\n      - [60 psi, 225 L/h]\n',
    usedFor('placement', 'flow-at'),
    'fuel-system:\n  pump:\n    # in the tank\n    use: wren-110\n',
  ],
  [
    'of what is said beside a merge',
    'x-a: &p { quantity: 1 }\nfuel-system:\n  pump:\n    <<: *p\n    placement: in-tank\n',
    usedFor('placement'),
    'x-a: &p { quantity: 1 }\nfuel-system:\n  pump:\n    <<: *p\n    use: wren-110\n',
  ],
  [
    'not of fields with comments in their braces',
    'fuel-system: { pump: {\n  placement: in-tank, # by phone\n  current: 9 A } }\n',
    usedFor('placement', 'current'),
    undefined,
  ],
];

const removing: Case[] = [
  [
    'a line, not the comment on it',
    'format: 1\ntitle: a # of it\nsite: {}\n',
    [{ remove: ['title'] }],
    'format: 1\n# of it\nsite: {}\n',
  ],
  ['a last line', 'format: 1\ntitle: a', [{ remove: ['title'] }], 'format: 1\n'],
  [
    'a section, not the comments around it',
    'engine:\n  # of the intake\n  intake:\n    pads: 1\n    # more\n  idle: 750 rpm\n',
    [{ remove: ['engine', 'intake'] }],
    'engine:\n  # of the intake\n    # more\n  idle: 750 rpm\n',
  ],
  [
    'the only field with its section',
    'format: 1\nengine:\n  cylinders: 8\n',
    [{ remove: ['engine', 'cylinders'] }],
    'format: 1\n',
  ],
  [
    'no section with a comment in it',
    'format: 1\nengine:\n  # mine\n  cylinders: 8\n',
    [{ remove: ['engine', 'cylinders'] }],
    undefined,
  ],
  [
    'the first field of an item',
    'stages:\n  - name: a\n    power: 5 hp\n',
    [{ remove: ['stages', 0, 'name'] }],
    'stages:\n  - power: 5 hp\n',
  ],
  [
    'no first field of an item with a comment',
    'stages:\n  - name: a # mine\n    power: 5 hp\n',
    [{ remove: ['stages', 0, 'name'] }],
    undefined,
  ],
  [
    'an item',
    'stages:\n  - name: a\n    power: 5 hp\n  - name: b\n',
    [{ remove: ['stages', 0] }],
    'stages:\n  - name: b\n',
  ],
  [
    'the first in braces',
    'engine: { cylinders: 8, idle: 750 rpm }\n',
    [{ remove: ['engine', 'cylinders'] }],
    'engine: { idle: 750 rpm }\n',
  ],
  [
    'the last in braces',
    'engine: { cylinders: 8, idle: 750 rpm } # mine\n',
    [{ remove: ['engine', 'idle'] }],
    'engine: { cylinders: 8 } # mine\n',
  ],
  ['the only one in braces', 'engine: { cylinders: 8 }\n', [{ remove: ['engine', 'cylinders'] }], 'engine: {}\n'],
  [
    'the first and the last in braces',
    'engine: { cylinders: 8, idle: 750 rpm, redline: 5500 rpm }\n',
    [{ remove: ['engine', 'cylinders'] }, { remove: ['engine', 'redline'] }],
    'engine: { idle: 750 rpm }\n',
  ],
  [
    'neighbors in braces',
    'engine: { cylinders: 8, idle: 750 rpm, redline: 5500 rpm }\n',
    [{ remove: ['engine', 'cylinders'] }, { remove: ['engine', 'idle'] }],
    'engine: { redline: 5500 rpm }\n',
  ],
  [
    'nothing that is only taken over',
    'x-a: &e { cylinders: 8 }\nengine: { <<: *e }\n',
    [{ remove: ['engine', 'cylinders'] }],
    undefined,
  ],
  ['nothing that is not there', 'format: 1\n', [{ remove: ['engine', 'cylinders'] }], undefined],
  [
    'a last line, and a field comes after it',
    'engine:\n  intake:\n    pads: 1\n    flange: two-bore # of it\n',
    [{ remove: ['engine', 'intake', 'flange'] }, cylinders],
    'engine:\n  intake:\n    pads: 1\n    # of it\n  cylinders: 6\n',
  ],
  [
    'a last line without an end, and a field comes after it',
    'engine:\n  intake:\n    pads: 1\n    flange: two-bore',
    [{ remove: ['engine', 'intake', 'flange'] }, cylinders],
    'engine:\n  intake:\n    pads: 1\n  cylinders: 6',
  ],
  [
    'the only field of a section, and a section comes after it',
    'engine:\n  idle: 750 rpm\n  intake:\n    pads: 1\nsite: {}\n',
    [{ remove: ['engine', 'intake', 'pads'] }, cylinders, title],
    'engine:\n  idle: 750 rpm\n  cylinders: 6\nsite: {}\ntitle: b\n',
  ],
];

describe.each([
  ['replaces', replacing],
  ['inserts', inserting],
  ['puts new fields in place', inPlaceOfAll],
  ['removes', removing],
] as [string, Case[]][])('an edit %s', (_, cases) => {
  it.each(cases)('%s', (_what, before, changes, after) => {
    for (const ending of ['\n', '\r\n']) {
      const withEnding = (text: string) => (before.includes('\n') ? text.replaceAll('\n', ending) : text);
      const text = withEnding(before);
      const edits = editsFor(read(text), changes);
      expect(edits && applyEdits(text, edits)).toBe(after && withEnding(after));
    }
  });
});

describe('edits', () => {
  it('leave what comes before an astral character and after it as it is', () => {
    const text = 'title: "😀 wagon" # 😀\nengine: { cylinders: 8 } # 😀\n';
    const edits = editsFor(read(text), [cylinders]) ?? [];
    expect(applyEdits(text, edits)).toBe('title: "😀 wagon" # 😀\nengine: { cylinders: 6 } # 😀\n');
  });

  it('are as small as the change', () => {
    const text = 'engine: { cylinders: 8 }\n';
    expect(editsFor(read(text), [cylinders])).toEqual([{ start: 21, end: 22, text: '6' }]);
  });

  it('of one place twice are refused', () => {
    expect(editsFor(read('title: abc\n'), [title, { remove: ['title'] }])).toBeUndefined();
  });
});
