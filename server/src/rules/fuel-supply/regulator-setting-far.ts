import type { StageRule } from '../rule.ts';

/** Set over rated pressure between which injectors are used. Common practice, from memory: 35 to 65 psi for 43.5 psi. */
const USUAL = { from: 0.8, to: 1.5 };

export const rule: StageRule = {
  id: 'fuel-supply/regulator-setting-far',
  title: 'The regulator is set far from the rated pressure of the injectors',
  severity: 'warning',
  why: 'Far below its rated pressure an injector dribbles instead of spraying, and far above it the needle opens late or not at all at low voltage. The square-root law between pressure and flow is only good near the pressure at which the flow was measured.',
  source: 'orifice equation; the range is common practice, from memory',
  check: ({ values, show, showValue }) => {
    const setting = values['fuel-system']?.regulator?.pressure;
    const rated = values['throttle-body']?.injectors?.['rated-pressure'];
    if (!setting || !rated) return undefined;
    const share = setting.value / rated.value;
    if (share >= USUAL.from && share <= USUAL.to) return undefined;
    const times = showValue(share, 'ratio');
    return {
      at: 'fuel-system.regulator.pressure',
      message: `The regulator holds ${show(setting)}, ${times} of the ${show({ ...rated })} at which the injectors were measured; ${showValue(USUAL.from, 'ratio')} to ${showValue(USUAL.to, 'ratio')} is usual.`,
      related: [{ at: 'throttle-body.injectors.rated-pressure', message: 'The rated pressure.' }],
      excess: Math.abs(Math.log(share)),
      repairs: [
        {
          title: 'Set the regulator to the rated pressure',
          set: { 'fuel-system.regulator.pressure': rated.text },
          shows: 'injector-flow',
        },
      ],
    };
  },
};
