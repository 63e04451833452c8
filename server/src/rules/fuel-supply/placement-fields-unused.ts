import type { Situation, StageRule } from '../../checking/rule.ts';
import { externalFields } from '../../remedies/pump-placement.ts';
import type { FieldPath } from '../../sheet/path.ts';

export const rule: StageRule = {
  id: 'fuel-supply/placement-fields-unused',
  title: 'Fields that belong to another pump location',
  severity: 'hint',
  why: 'Height, distance and suction line count only for a pump outside the tank, and a feed only for a surge tank. Left over from another plan, they mislead whoever builds from the sheet.',
  inspect: 'See where the pump sits now.',
  remedy: 'Take out what belongs to the other location.',
  source: 'common practice',
  check: ({ values, plan }) => {
    const pump = values['fuel-system']?.pump;
    const placement = pump?.placement;
    if (!placement) return undefined;
    const unused: FieldPath[] = [
      ...(plan.some(isPlaced('external')) ? [] : externalFields(values)),
      ...(pump['fed-by'] && !plan.some(isPlaced('surge-tank')) ? (['fuel-system.pump.fed-by'] as const) : []),
    ];
    const [first] = unused;
    if (!first) return undefined;
    const names = unused.map((path) => `"${path.split('.').at(-1)}"`).join(', ');
    return {
      at: first,
      message: `${names} ${unused.length > 1 ? 'have' : 'has'} no meaning for a pump placed "${placement}".`,
      related: [{ at: 'fuel-system.pump.placement', message: 'Where the pump sits.' }],
      repairs: [{ title: `Remove ${names}`, remove: unused, safe: true }],
    };
  },
};

function isPlaced(placement: string) {
  return ({ values }: Situation) => values['fuel-system']?.pump?.placement === placement;
}
