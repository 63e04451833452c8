import { injectorFlow } from '../../analysis/full-load-injection.ts';
import { idleInjectorFlow, idlePulse } from '../../analysis/idle-injection.ts';
import { dischargePlace } from '../../analysis/injectors.ts';
import { regulatorReference } from '../../analysis/regulator.ts';
import type { StageRule } from '../../checking/rule.ts';

/** Difference of injector flow between idle and full load that a mixture table hides no longer. Common practice, from memory. */
const NOTICEABLE = 1.05;

export const rule: StageRule = {
  id: 'throttle-body/below-throttle-fixed-regulator',
  title: 'Injectors below the plates on a fixed regulator',
  severity: 'information',
  why: 'Below the plates manifold vacuum pulls on the injectors: with the rail pressure fixed they flow more at idle than at full load, so the idle pulse is shorter still and the computer must know of it. A regulator referenced to the manifold keeps the pressure across them constant.',
  inspect: 'See where the fuel comes out, and whether the regulator has a hose to the manifold.',
  remedy: 'Run a hose from the manifold to the regulator, or tell the computer that the flow changes with vacuum.',
  source: 'pressure balance; orifice equation (Bernoulli)',
  check: ({ stage, path, see, know, show }) => {
    if (know(dischargePlace) !== 'below-throttle' || know(regulatorReference) === 'manifold') return undefined;
    const seesBoost = path === 'blow-through' && (stage.boost?.value ?? 0) > 0;
    const [idle, full] = [see(idleInjectorFlow), see(injectorFlow)];
    if (seesBoost || !idle || !full || idle.value <= full.value * NOTICEABLE) return undefined;
    return {
      at: 'fuel-system.regulator.reference',
      message: `An injector below the plates flows ${show(idle)} at idle and ${show(full)} at full load, since the regulator is open to the air.`,
      related: [{ at: 'throttle-body.injectors.discharge', message: 'Below the plates.' }],
      repairs: [
        {
          title: 'Reference the regulator to the manifold',
          set: { 'fuel-system.regulator.reference': 'manifold' },
          shows: idlePulse,
        },
      ],
    };
  },
};
