import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'electrical/computer-wet',
  title: 'Water reaches the computer',
  severity: 'warning',
  why: 'Water creeps along the strands of a wire and through a connector that points up. It corrodes the pins from inside, and the sensor on that pin wanders until it fails.',
  inspect:
    'Hose over cowl and fenders, then look for drops at case and connectors; pull one connector and look for green.',
  remedy:
    'Mount it where it stays dry, connectors down, with a drip loop in the harness; else a sealed case with sealed connectors.',
  source: 'common practice',
  check: ({ values: { computer } }) => {
    if (computer?.sprayed !== true || computer.sealed !== false) return undefined;
    return {
      at: 'computer.sprayed',
      message: 'Water can reach the computer, which is not sealed: mount it where it stays dry.',
      related: [{ at: 'computer.sealed', message: 'It is not sealed.' }],
      repairs: [{ title: 'Mount it where it stays dry', set: { 'computer.sprayed': false } }],
    };
  },
};
