import { describe, expect, it } from 'vitest';
import { type Plot, plotSvg, plotTable } from '../../../server/src/report/plot.ts';

const plot: Plot = {
  kind: 'plot',
  title: 'Delivery <of "two" pumps>',
  description: 'A falling line & a point.',
  x: { name: 'pressure', dimension: 'pressure' },
  y: { name: 'duty', dimension: 'ratio' },
  lines: [
    {
      name: 'a',
      points: [
        { x: 0, y: 0 },
        { x: 100_000, y: 1 },
      ],
    },
    { name: 'b', points: [{ x: 50_000, y: 0.5 }] },
  ],
  limit: { name: 'limit', value: 0.85 },
  marks: [{ name: 'here', x: 100_000, y: 1 }],
};

describe('a plot', () => {
  const svg = plotSvg(plot, 'si', 'p');

  /** By hand: 0 to 1 bar stands over 0 to 1.2 on 560 units from 64; 0 to 100 % over 0 to 120 on 296 units up from 312. */
  it('puts points where they belong by hand', () => {
    expect(svg).toContain('<polyline points="64,312 530.7,65.3"');
    expect(svg).toContain('<circle cx="530.7" cy="65.3"');
    expect(svg).toContain('y1="102.3"');
  });

  /** By hand: 312 is the foot, (64 + 624) / 2 the middle across and (16 + 312) / 2 that of the height. */
  it('puts its words beside the axes by hand', () => {
    expect(svg).toContain('<text x="64" y="328" text-anchor="middle">0</text>');
    expect(svg).toContain('<text x="58" y="316" text-anchor="end">0</text>');
    expect(svg).toMatch(/<text x="344" y="352" text-anchor="middle">pressure/);
    expect(svg).toMatch(/<text x="14" y="164" [^>]*rotate\(-90 14 164\)/);
    expect(svg).toContain('<text x="624" y="98.3" text-anchor="end">limit</text>');
  });

  it('has room for a limit that nothing comes near', () => {
    const limited = plotSvg({ ...plot, limit: { name: 'limit', value: 3 } }, 'si', 'p');
    const height = Number(/<text x="624" y="([\d.-]+)" text-anchor="end">limit/.exec(limited)?.[1]);
    expect(height).toBeGreaterThan(0);
  });

  it('tells lines apart by dashes, and says what it is', () => {
    expect(svg).toContain('stroke-dasharray="8 4"');
    expect(svg).toContain('<title id="p-title">Delivery &lt;of &quot;two&quot; pumps&gt;</title>');
    expect(svg).toContain('<desc id="p-text">A falling line &amp; a point.</desc>');
    expect(svg).toMatch(/>pressure, (bar|kPa)</);
  });

  it('gives its numbers as a table', () => {
    expect(plotTable(plot, 'si')).toEqual({
      kind: 'table',
      head: ['pressure', 'duty, a', 'duty, b'],
      rows: [
        [expect.stringMatching(/^0/), '0 %', '-'],
        [expect.stringMatching(/^(0.5|50) /), '-', '50 %'],
        [expect.stringMatching(/^1(00)? /), '100 %', '-'],
        [expect.stringMatching(/^here: 1(00)? /), '100 %', ''],
      ],
    });
  });

  /** By hand: -50 to 150 % stand over 296 units up from 312: -20 % at 312 - 0.15 * 296 = 267.6, 0 at 312 - 0.25 * 296 = 238. */
  it('keeps what is below zero inside its axes', () => {
    const points = [
      { x: 0, y: -0.2 },
      { x: 100_000, y: 1 },
    ];
    const below = plotSvg({ ...plot, lines: [{ name: 'a', points }], marks: [] }, 'si', 'p');
    expect(below).toContain('<polyline points="64,267.6 ');
    expect(below).toContain('<text x="58" y="242" text-anchor="end">0<');
    expect(below).toContain('<text x="58" y="316" text-anchor="end">-50<');
  });

  it('is drawn for nothing at all', () => {
    expect(plotSvg({ ...plot, lines: [], marks: [] }, 'us', 'q')).not.toMatch(/NaN|undefined|Infinity/);
  });
});
