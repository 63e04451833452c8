import { elementArea, elementAreaNeeded } from '../engineering/air-cleaner.ts';
import { field, figure, given } from './node.ts';
import { airflowNeeded } from './throttle.ts';

const HOME = ['stack', 'stack.filter-height', 'stack.filter-diameter'] as const;

/** The element is on the sheet. */
const hasElement = given('stack.filter-height');

export const airCleanerArea = figure({
  id: 'air-cleaner-area',
  symbol: 'A_f',
  name: 'outside area of the air-cleaner element',
  dimension: 'area',
  formula: 'pi d (h - 0.75 in)',
  source: 'geometry; 3/4 in of rubber ends: common practice, from memory',
  home: HOME,
  when: hasElement,
  from: { diameter: field('stack.filter-diameter', 'd'), height: field('stack.filter-height', 'h') },
  compute: ({ diameter, height }) => elementArea(diameter, height),
});

export const airCleanerAreaNeeded = figure({
  id: 'air-cleaner-area-needed',
  symbol: 'A_f,need',
  name: 'outside area the air-cleaner element needs',
  dimension: 'area',
  formula: 'Q_need / (6 cfm/in^2)',
  source: 'common practice, from memory: 6 cfm per square inch of a pleated element',
  home: HOME,
  when: hasElement,
  from: { airflowNeeded },
  compute: ({ airflowNeeded }) => elementAreaNeeded(airflowNeeded),
});
