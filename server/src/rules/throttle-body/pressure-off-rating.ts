import { injectorPressure } from '../../analysis/full-load-injection.ts';
import { hungriest } from '../../analysis/operating-points.ts';
import type { StageRule } from '../../checking/rule.ts';
import { percent } from '../../remedies/percent.ts';
import { roundedDown } from '../../remedies/size.ts';

/** Pressure across an injector, as a share of its rated pressure, within which it opens and sprays as rated. Common practice, from memory. */
const LEAST = 0.6;
const MOST = 1.75;

export const rule: StageRule = {
  id: 'throttle-body/pressure-off-rating',
  title: 'Injector pressure far from the rated pressure',
  severity: 'warning',
  why: 'Far above its rated pressure an injector opens late or not at all, and its seals may leak fuel; far below it dribbles instead of spraying. The flow by the orifice equation holds only near the rating.',
  inspect: 'Gauge on the rail at idle and at full load, less the pressure where the injectors spray.',
  remedy: 'Set the regulator near the rated pressure, or fit injectors rated for the pressure you need.',
  source: 'common practice, from memory; orifice equation (Bernoulli)',
  check: ({ values, stage, path, see, know, show }) => {
    const rated = values['throttle-body']?.injectors?.['rated-pressure'];
    const { pressure: setting, reference } = values['fuel-system']?.regulator ?? {};
    const across = see(injectorPressure);
    if (!rated || !setting || !across || know(hungriest)?.regulation === 'backed-up') return undefined;
    const share = across.value / rated.value;
    const isBoostUnmatched = path === 'blow-through' && (stage.boost?.value ?? 0) > 0 && reference !== 'manifold';
    if (share <= MOST && (share >= LEAST || isBoostUnmatched)) return undefined;
    const better = roundedDown((rated.value + setting.value - across.value) * (1 + 1e-9), setting);
    return {
      at: 'fuel-system.regulator.pressure',
      message: `The injectors are rated at ${show(rated)} and would work at ${show(across)}, ${percent(share)} of it.`,
      related: [{ at: 'throttle-body.injectors.rated-pressure', message: 'The rated pressure.' }],
      excess: Math.abs(Math.log(share)),
      repairs: [
        {
          title: `Set the regulator to ${better}`,
          set: { 'fuel-system.regulator.pressure': better },
          shows: injectorPressure,
        },
      ],
    };
  },
};
