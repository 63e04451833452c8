import { airCleanerArea, airCleanerAreaNeeded } from '../../analysis/air-cleaner.ts';
import { below, type StageRule } from '../../checking/rule.ts';
import { ELEMENT_ENDS } from '../../engineering/air-cleaner.ts';
import { roundedUp } from '../../remedies/size.ts';

export const rule: StageRule = {
  id: 'throttle-body/air-cleaner-small',
  title: 'Air cleaner too small',
  severity: 'warning',
  capacity: true,
  why: 'What the filter holds back is lost before the throttle, and it grows with dust. A small element is clean on the dyno and costs more power with every thousand miles, and the computer sees it only as thinner air.',
  inspect:
    'A gauge in the lid of the air cleaner at full load, by a second person or a log: a few inches of water when clean.',
  remedy: 'A higher or wider element; where the hood is low, a wider one on a drop base that clears everything.',
  source:
    'common practice, from memory: 6 cfm per square inch of a pleated element, 3/4 in of its height for rubber ends',
  check: ({ values, see, compare, showValue }) => {
    const height = values.stack?.['filter-height'];
    const [has, needs] = [height && see(airCleanerArea), height && see(airCleanerAreaNeeded)];
    const miss = has && needs && below(has, needs.value);
    if (!height || !miss) return undefined;
    const shown = compare({ ...has, dimension: 'area' }, needs.value);
    const to = roundedUp(
      (height.value - ELEMENT_ENDS) * (needs.value / Math.max(has.low ?? has.value, 1e-6)) + ELEMENT_ENDS,
      height,
    );
    return {
      at: 'stack.filter-height',
      message: `The element of the air cleaner has ${shown.value}, but the engine needs ${shown.limit}: take a higher or a wider one.`,
      ...miss,
      related: [
        {
          at: 'stack.filter-diameter',
          message: `Its diameter, ${showValue(values.stack?.['filter-diameter']?.value ?? 0, 'length')}.`,
        },
      ],
      repairs:
        has.value > 0
          ? [{ title: `Take an element ${to} high`, set: { 'stack.filter-height': to }, shows: airCleanerArea }]
          : [],
    };
  },
};
