import { describe, expect, it } from 'vitest';
import type { Path } from '../../../server/src/sheet/schema.ts';
import { sharedPlaces } from '../../../server/src/sheet/shared-places.ts';
import { read } from './marked.ts';

const text = `format: 2
x-lines:
  hose: &hose { inside-diameter: 8 mm, length: 5 m }
fuel-system:
  feed: *hose
  return: *hose
  suction: { <<: *hose, length: 1 m }
`;

const shared = (...set: Path[]) =>
  sharedPlaces(
    read(text).root,
    set.map((path) => ({ set: path, to: '6 m' })),
  ).map((path) => path.join('.'));

describe('a change of a text that an alias takes', () => {
  it('changes the other fields that take it, but for the ones the team keeps for itself', () => {
    expect(shared(['fuel-system', 'feed', 'inside-diameter'])).toEqual([
      'fuel-system.return.inside-diameter',
      'fuel-system.suction.inside-diameter',
    ]);
  });

  it('leaves alone the field that is written beside what a merge key brings', () => {
    expect(shared(['fuel-system', 'feed', 'length'])).toEqual(['fuel-system.return.length']);
    expect(shared(['fuel-system', 'suction', 'length'])).toEqual([]);
  });

  it('brings a field that is not there yet to all that take the fields around it', () => {
    expect(shared(['fuel-system', 'feed', 'material'])).toEqual([
      'fuel-system.return.material',
      'fuel-system.suction.material',
    ]);
  });

  it('does not name what is meant to change', () => {
    expect(shared(['fuel-system', 'feed', 'length'], ['fuel-system', 'return', 'length'])).toEqual([]);
  });

  it('is no change elsewhere where nothing is shared', () => {
    expect(shared(['format'])).toEqual([]);
    expect(shared(['fuel-system', 'tank', 'vent'])).toEqual([]);
  });
});
