import { describe, expect, it } from 'vitest';
import { type FuelPath, fuelPathSvg, fuelPathTable } from '../../../server/src/report/fuel-path.ts';
import { type Ladder, ladderSvg, ladderTable } from '../../../server/src/report/ladder.ts';
import { type Plot, plotSvg, plotTable } from '../../../server/src/report/plot.ts';

const HORSEPOWER = 745.69987158227;

describe('a ladder', () => {
  const ladder: Ladder = {
    kind: 'ladder',
    title: 'How far',
    description: 'A bar a stage.',
    rows: [
      {
        name: 'now <b>',
        claimed: 200 * HORSEPOWER,
        upTo: 480 * HORSEPOWER,
        marks: [
          { at: 300 * HORSEPOWER, name: 'pump' },
          { at: 304 * HORSEPOWER, name: 'wire' },
        ],
      },
    ],
  };
  const svg = ladderSvg(ladder, 'us', 'l');

  /** By hand: 0 to 500 hp stands over 600 units from 16; the bar of the first row lies 34 below the top of 12. */
  it('puts claim and marks where they belong by hand', () => {
    expect(svg).toContain('<circle cx="256" cy="46" r="6"');
    expect(svg).toContain('<line x1="16" y1="46" x2="376" y2="46"');
    expect(svg).toContain('<line x1="376" y1="46" x2="592" y2="46"');
    expect(svg).toContain('<text x="378.4" y="36" text-anchor="middle">1-2</text>');
  });

  /** By hand: rows of 52 from 12, the second bar at 12 + 52 + 34 and the foot at 12 + 2 * 52; 315 hp at 16 + 600 * 315 / 500. */
  it('puts its rows under each other and the scale under them', () => {
    const [row] = ladder.rows;
    const further = { name: 'then', claimed: 250 * HORSEPOWER, upTo: 480 * HORSEPOWER };
    const marks = [300, 315].map((power) => ({ at: power * HORSEPOWER, name: 'pump' }));
    const two = ladderSvg({ ...ladder, rows: [...(row ? [row] : []), { ...further, marks }] }, 'us', 'l');
    expect(two).toContain('<circle cx="316" cy="98" r="6"');
    expect(two).toContain('<text x="16" y="78" font-weight="bold">then</text>');
    expect(two).toContain('<text x="376" y="88" text-anchor="middle">1</text>');
    expect(two).toContain('<text x="394" y="117" text-anchor="middle">2</text>');
    expect(two).toContain('<line x1="616" y1="12" x2="616" y2="116"');
    expect(two).toContain('<text x="616" y="132" text-anchor="middle">500</text>');
    expect(two).toContain('<text x="316" y="150" text-anchor="middle">power, hp</text>');
  });

  it('lets no name become markup', () => {
    expect(svg).toContain('now &lt;b&gt;');
  });

  it('rounds powers down to steps, as headroom is told', () => {
    expect(ladderTable(ladder, 'us')).toMatchObject({
      rows: [
        ['now <b>', '200 hp', 'claimed'],
        ['now <b>, 1', '300 hp', 'pump'],
        ['now <b>, 2', '300 hp', 'wire'],
      ],
    });
  });
});

describe('the way of the fuel', () => {
  const path: FuelPath = {
    kind: 'fuel-path',
    title: 'The way',
    description: 'Down and back.',
    feed: [
      { sign: 'tank', name: 'tank', notes: ['60 L'] },
      { sign: 'pump', name: 'pump', notes: [], pressure: 400_000 },
      { sign: 'injectors', name: 'injectors', notes: [] },
    ],
    back: [{ sign: 'regulator', name: 'regulator', notes: ['3 bar'], pressure: 5_000 }],
  };

  it('is drawn down and back up, the return beside the engine', () => {
    const svg = fuelPathSvg(path, 'si', 'f');
    expect(svg).toContain('viewBox="0 0 760 218"');
    expect(svg).toContain('M429 160h22v22h-22z');
    expect(svg).not.toMatch(/NaN|undefined/);
  });

  /** By hand: pieces 62 apart from 16 + 31, so at 47, 109 and 171, each line 12 short of them; the way back runs 8 over all. */
  it('joins its pieces by lines', () => {
    const svg = fuelPathSvg(
      { ...path, back: [...path.back, { sign: 'filter', name: 'filter', notes: [] }] },
      'si',
      'f',
    );
    const lines = [...svg.matchAll(/<line x1="(\d+)" y1="(\d+)" x2="(\d+)" y2="(\d+)"/g)].map((line) =>
      line.slice(1, 5).join(' '),
    );
    expect(lines).toEqual(
      expect.arrayContaining([
        '28 59 28 97',
        '28 121 28 159',
        '440 159 440 121',
        '40 171 428 171',
        '440 97 440 8',
        '440 8 28 8',
        '28 8 28 49',
      ]),
    );
  });

  it('is told as a table, piece by piece', () => {
    expect(fuelPathTable(path, 'si')).toMatchObject({
      rows: [['tank', '60 L', '-'], ['pump', '', expect.stringMatching(/^(4 bar|400 kPa)$/)], {}, {}],
    });
  });

  it('has no way back where there is none', () => {
    const svg = fuelPathSvg({ ...path, back: [] }, 'si', 'f');
    expect(svg).not.toContain('stroke-dasharray="4 4"');
  });
});

describe('a plot from place to place', () => {
  const plot: Plot = {
    kind: 'plot',
    title: 'Volts',
    description: 'On the way.',
    x: { name: 'place', places: ['battery', 'pump'] },
    y: { name: 'voltage', dimension: 'voltage' },
    lines: [
      {
        name: 'now',
        points: [
          { x: 0, y: 14 },
          { x: 1, y: 13 },
        ],
      },
    ],
    marks: [],
  };

  /** By hand: two places halve 560 units from 64; 0 to 15 V stands over 156 units up from 172. */
  it('stands over its places', () => {
    expect(plotSvg(plot, 'us', 'v')).toContain('<polyline points="204,26.4 484,36.8"');
    expect(plotTable(plot, 'us')).toEqual({
      kind: 'table',
      head: ['place', 'voltage, now'],
      rows: [
        ['battery', '14 V'],
        ['pump', '13 V'],
      ],
    });
  });
});
