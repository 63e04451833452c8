import { uncapital } from '../../analysis/figure-words.ts';
import type { Headroom } from '../../fit/headroom.ts';
import type { Ladder } from '../../report/ladder.ts';
import { echo } from '../../text/echo.ts';

/** How much of a bar is shown past the last thing that gives way, or past a claim that nothing gives way above. */
const PAST_LAST = 1.1;
const PAST_CLAIM = 1.5;

/** How far the parts of each stage go, drawn. */
export function ladders(stages: readonly Headroom[]): Ladder[] {
  if (stages.length === 0) return [];
  const ends = stages.map(({ power, rungs }) =>
    Math.max(power * PAST_CLAIM, ...rungs.map((rung) => rung.power * PAST_LAST)),
  );
  const most = Math.max(...ends);
  const rows = stages.map(({ stage, power, already, rungs, upTo }) => ({
    name: echo(stage),
    claimed: power,
    upTo: Math.min(upTo, most),
    marks: [
      ...already.map(({ title }) => ({ at: power, name: `${uncapital(title)}, already` })),
      ...rungs.map(({ power: at, broken }) => ({ at, name: uncapital(broken.title) })),
    ],
  }));
  return [
    {
      kind: 'ladder',
      title: 'How far the parts go',
      description: 'A bar a stage over engine power: where each part gives way.',
      rows,
    },
  ];
}
