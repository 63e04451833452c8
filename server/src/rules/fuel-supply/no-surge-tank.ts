import type { StageRule } from '../../checking/rule.ts';
import { externalFields } from '../../remedies/pump-placement.ts';

export const rule: StageRule = {
  id: 'fuel-supply/no-surge-tank',
  title: 'The mechanical pump feeds a surge tank that is not there',
  severity: 'warning',
  why: 'The sheet sends the mechanical pump into a surge tank, but the injection pump does not sit in one. Either the surge tank was forgotten, or the mechanical pump is still plumbed in where nobody wants it.',
  inspect: 'Follow the outlet of the mechanical pump to where it ends.',
  remedy: 'Take the mechanical pump off and blank it, or fit the surge tank it was meant to fill.',
  source: 'common practice',
  cautions: ['used-tank'],
  check: ({ values }) => {
    const system = values['fuel-system'];
    const placement = system?.pump?.placement;
    if (system?.['mechanical-pump'] !== 'feeds-surge-tank' || !placement || placement === 'surge-tank') {
      return undefined;
    }
    return {
      at: 'fuel-system.mechanical-pump',
      message: `The mechanical pump is to feed a surge tank, but the injection pump is placed "${placement}".`,
      related: [{ at: 'fuel-system.pump.placement', message: 'Where the pump sits.' }],
      repairs: [
        {
          title: 'Remove the mechanical pump and blank it off',
          set: { 'fuel-system.mechanical-pump': 'removed' },
        },
        {
          title: 'Put the pump in the surge tank',
          set: { 'fuel-system.pump.placement': 'surge-tank', 'fuel-system.pump.fed-by': 'mechanical-pump' },
          remove: externalFields(values),
        },
      ],
    };
  },
};
