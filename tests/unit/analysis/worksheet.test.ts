import { describe, expect, it } from 'vitest';
import { isKnown } from '../../../server/src/analysis/figure.ts';
import { fact, field, given, type Node } from '../../../server/src/analysis/node.ts';
import { sourceOf } from '../../../server/src/analysis/source.ts';
import { Worksheet } from '../../../server/src/analysis/worksheet.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { stagesOf } from '../../../server/src/sheet/stages.ts';
import { read } from '../sheet/marked.ts';

/** Where the nodes of a sheet's first stage read. */
function sourceIn(text: string) {
  const [stage] = stagesOf(read(text).values);
  if (!stage) throw new Error('no stage');
  return sourceOf(stage, noHouse);
}

const source = sourceIn('format: 1\nsite: { altitude: 900 m }\nengine: { redline: 5500 rpm }\n');

/** A node with how often it was worked out. */
function counted<T>(from: Record<string, Node<unknown>>, compute: (values: Record<string, unknown>) => T) {
  const counter = { node: undefined as unknown as Node<T>, times: 0 };
  counter.node = fact({
    id: 'counted',
    from,
    compute: (values) => {
      counter.times++;
      return compute(values);
    },
  });
  return counter;
}

describe('a worksheet', () => {
  it('works a node out once, however often it is asked for', () => {
    const height = counted({ altitude: field('site.altitude', 'H') }, ({ altitude }) => altitude);
    const twice = fact({ id: 'twice', from: { one: height.node, other: height.node }, compute: ({ one }) => one });
    const sheet = new Worksheet(source);
    expect([sheet.see(twice), sheet.see(height.node)]).toEqual([{ value: 900 }, { value: 900 }]);
    expect(height.times).toBe(1);
  });

  it('takes over what stands on the same, and works out again what does not', () => {
    const height = counted({ altitude: field('site.altitude', 'H') }, ({ altitude }) => altitude);
    const hasSpeed = counted({ given: given('engine.redline') }, ({ given }) => given);
    const first = new Worksheet(source);
    for (const { node } of [height, hasSpeed]) first.see(node);
    const other = sourceIn('format: 1\nsite: { altitude: 100 m }\nengine: { redline: 5500 rpm }\n');
    const second = new Worksheet(other, [first]);
    expect([second.see(height.node), second.see(hasSpeed.node)]).toEqual([{ value: 100 }, { value: true }]);
    expect([height.times, hasSpeed.times]).toEqual([2, 1]);
  });

  it('takes nothing over once it let go of the others', () => {
    const height = counted({ altitude: field('site.altitude', 'H') }, ({ altitude }) => altitude);
    const first = new Worksheet(source);
    first.see(height.node);
    const second = new Worksheet(source, [first]);
    second.settle();
    second.see(height.node);
    expect(height.times).toBe(2);
  });

  it('tells a node that fails as a fault, also where it takes it over, and goes on', () => {
    const failing = counted({}, () => {
      throw new TypeError('ours');
    });
    const first = new Worksheet(source);
    expect(isKnown(first.see(failing.node))).toBe(false);
    const second = new Worksheet(source, [first]);
    second.see(failing.node);
    expect([first, second].map(({ faults }) => faults.map(({ where }) => where))).toEqual([['counted'], ['counted']]);
    expect(failing.times).toBe(1);
  });

  it('shows the same terms of a node each time', () => {
    const sheet = new Worksheet(source);
    const altitude = field('site.altitude', 'H');
    expect(sheet.termsOf(altitude)).toBe(sheet.termsOf(altitude));
    expect(sheet.termsOf(altitude)).toMatchObject([{ symbol: 'H', value: 900, field: ['site', 'altitude'] }]);
  });
});
