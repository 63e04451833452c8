import { railPressureSet } from '../../analysis/regulator.ts';
import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'fuel-supply/hose-clamps',
  title: 'Worm-drive clamps on hose under pressure',
  severity: 'error',
  why: 'The slots of a worm-drive clamp cut into the hose, and it presses unevenly. It held a few psi; under injection pressure the hose creeps and comes off its barb, over a hot engine with the pump running.',
  inspect:
    'Look at every clamp from the pump to the throttle body and back: a band with slots is of the old kind; one with a smooth band and rolled edges is made for injection.',
  remedy:
    'Clamps for fuel injection of the right size on barbed or beaded ends, or ends that are crimped or screwed on.',
  source: 'common practice',
  check: ({ values, see, show }) => {
    if (values['fuel-system']?.routing?.clamps !== 'worm-drive') return undefined;
    const pressure = see(railPressureSet);
    return {
      at: 'fuel-system.routing.clamps',
      message: `Worm-drive clamps hold hose ${pressure ? `at ${show(pressure)}` : 'at injection pressure'}: take fuel-injection clamps.`,
      repairs: [{ title: 'Take fuel-injection clamps', set: { 'fuel-system.routing.clamps': 'injection' } }],
    };
  },
};
