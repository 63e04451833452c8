import { describe, expect, it } from 'vitest';
import { markdown } from '../../../server/src/report/markdown.ts';
import { type Page, paragraph, prose } from '../../../server/src/report/page.ts';
import { plainText } from '../../../server/src/report/plain-text.ts';

const page: Page = [
  paragraph({ strong: 'Pump' }, ' ', { code: 'fuel-system.pump' }),
  paragraph(...prose('Set `placement`, and `flow-at`.')),
  { kind: 'list', items: [['one ', { code: 'a`b' }], ['two <b>']] },
  { kind: 'divider' },
  {
    kind: 'table',
    head: ['figure', 'now | then', '![x](y)'],
    rows: [
      ['Flow', '12 L/h', '-'],
      ['Long name of a figure', '1 L/h', '2 L/h'],
    ],
  },
];

describe('a page', () => {
  it('as Markdown', () => {
    expect(markdown(page)).toBe(
      [
        '**Pump** `fuel-system.pump`',
        'Set `placement`, and `flow-at`.',
        '- one ``a`b``\n- two \\<b\\>',
        '---',
        '| figure | now \\| then | !\\[x\\](y) |\n|:---|---:|---:|\n| Flow | 12 L/h | - |\n| Long name of a figure | 1 L/h | 2 L/h |',
      ].join('\n\n'),
    );
  });

  it('as text has its columns below each other', () => {
    expect(plainText(page)).toBe(
      [
        'Pump fuel-system.pump',
        'Set placement, and flow-at.',
        '- one a`b\n- two <b>',
        [
          'figure                 now | then  ![x](y)',
          'Flow                       12 L/h        -',
          'Long name of a figure       1 L/h    2 L/h',
        ].join('\n'),
      ].join('\n\n'),
    );
  });

  it('keeps a backtick that nothing closes', () => {
    expect(prose('a `b` c ` d')).toEqual(['a ', { code: 'b' }, ' c ', '` d']);
    expect(prose('')).toEqual([]);
  });
});
