import type { StageRule } from '../../checking/rule.ts';
import { externalFields } from '../../remedies/pump-placement.ts';

export const rule: StageRule = {
  id: 'fuel-supply/mechanical-pump-in-series',
  title: 'The mechanical pump is still in the line',
  severity: 'error',
  why: 'A diaphragm pump is made for a few psi: behind the electric pump its diaphragm bursts and fills the crankcase with fuel, and ahead of it the valves choke the inlet. Take it out, blank its hole and its lines, and leave a leak test to whoever is allowed to work on fuel where you are.',
  inspect:
    'Look at the side of the block or the timing cover: two lines on it and an arm inside mean that it still pumps.',
  remedy:
    'Take it out, blank the hole with a plate and gasket, and run the line past it. Leak-test at working pressure.',
  source: 'common practice',
  check: ({ values, show }) => {
    const system = values['fuel-system'];
    if (system?.['mechanical-pump'] !== 'in-series') return undefined;
    const pressure = system.regulator?.pressure;
    const held = pressure ? `, in a system that holds ${show(pressure)}` : '';
    return {
      at: 'fuel-system.mechanical-pump',
      message: `The engine's mechanical pump is still in the line${held}.`,
      related: pressure ? [{ at: 'fuel-system.regulator.pressure', message: 'The pressure of the system.' }] : [],
      repairs: [
        { title: 'Remove the mechanical pump and blank it off', set: { 'fuel-system.mechanical-pump': 'removed' } },
        {
          title: 'Let it feed a surge tank with the electric pump in it',
          set: {
            'fuel-system.mechanical-pump': 'feeds-surge-tank',
            'fuel-system.pump.placement': 'surge-tank',
            'fuel-system.pump.fed-by': 'mechanical-pump',
          },
          remove: externalFields(values),
        },
      ],
    };
  },
};
