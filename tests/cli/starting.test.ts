import { describe, expect, it } from 'vitest';
import { program } from './program.ts';

describe('build-sheet starting', () => {
  it('lists the points of a stage as CSV', async () => {
    const { code, out } = await program(['starting', 'samples/millrace-stroker.build.yaml', '--stage', 'roots blower']);
    expect(code).toBe(0);
    const [head, ...points] = out.trimEnd().split('\r\n');
    expect(head).toMatch(/^speed \(rpm\),manifold pressure/);
    expect(points.length).toBeGreaterThan(50);
    expect(Math.max(...points.map((point) => Number(point.split(',')[1])))).toBeGreaterThan(130);
  });

  it('says which stages there are, and what a stage lacks', async () => {
    const wrong = await program(['starting', 'samples/millrace-stroker.build.yaml', '-s', 'later']);
    expect(wrong.code).toBe(2);
    expect(wrong.complaints).toContain('no stage is called "later"; there are "as built", "roots blower".');
    const short = await program(['starting', '-'], { input: 'format: 1\nstages:\n  - { power: 200 hp }\n' });
    expect(short.code).toBe(2);
    expect(short.complaints).toMatch(/cannot be worked out: it needs .*engine\./);
  });
});
