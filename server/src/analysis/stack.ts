import { hoodMargin, stackHeight as stackHeightOf } from '../engineering/stack.ts';
import { field, figure, given } from './node.ts';

/** Usual thickness of an adapter plate, m: 3/16 in. Common practice. */
const ADAPTER = 0.0047625;

const hasAdapter = given('stack.adapter');
const adapter = field('stack.adapter.thickness', 'h_a', {
  from: { hasAdapter },
  compute: ({ hasAdapter }) => (hasAdapter ? ADAPTER : 0),
  because: ({ hasAdapter }) => (hasAdapter ? 'common practice: 3/16 in' : 'no adapter'),
});
const spacer = field('stack.spacer', 'h_s', { value: 0, because: 'no spacer' });
const bodyHeight = field('throttle-body.height', 'h_tb');
const airCleaner = field('stack.air-cleaner', 'h_c');

export const stackHeight = figure({
  id: 'stack-height',
  symbol: 'h',
  name: 'height of the stack on the intake flange',
  dimension: 'length',
  formula: 'h_a + h_s + h_tb + h_c',
  source: 'sum',
  home: ['stack', 'vehicle.hood-clearance', 'throttle-body.height'],
  from: { adapter, spacer, bodyHeight, airCleaner },
  compute: ({ adapter, spacer, bodyHeight, airCleaner }) =>
    stackHeightOf({ adapters: [adapter, spacer], throttleBody: bodyHeight, airCleaner }),
});

const clearance = field('vehicle.hood-clearance', 'clearance');

export const hoodGap = figure({
  id: 'hood-gap',
  symbol: 'gap',
  name: 'gap between stack and hood',
  dimension: 'length',
  formula: 'clearance - h',
  source: 'difference',
  home: ['stack', 'vehicle.hood-clearance'],
  from: { clearance, stackHeight },
  compute: ({ clearance, stackHeight }) => hoodMargin(clearance, stackHeight),
});
