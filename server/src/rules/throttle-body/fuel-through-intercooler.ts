import type { StageRule } from '../../checking/rule.ts';
import { referencedRegulator } from '../../remedies/referenced-regulator.ts';

export const rule: StageRule = {
  id: 'throttle-body/fuel-through-intercooler',
  title: 'Fuel passes through the intercooler',
  severity: 'warning',
  why: 'Ahead of the compressor the throttle body sends its fuel through compressor and intercooler. It settles in the cold core and leaves the engine lean and then rich, and a backfire finds a core full of mixture. An intercooler belongs ahead of the fuel.',
  inspect: 'Follow the air: filter, throttle body, compressor, core, engine. Fuel must come after the core.',
  remedy: 'Put the throttle body behind the core, rated for boost, or leave the core out.',
  source: 'common practice',
  check: ({ values, stage, path, show, induction }) => {
    const cooler = stage['intercooler-effectiveness'];
    if (path !== 'draw-through' || !cooler?.value) return undefined;
    return {
      at: 'stages.intercooler-effectiveness',
      message: `The throttle body is ahead of the compressor, so its fuel passes through the intercooler (${show(cooler)}).`,
      related: [{ at: stage.path ? 'stages.path' : 'stages.induction', message: 'Draw-through.' }],
      repairs: [
        ...(induction === 'roots'
          ? []
          : [
              {
                title: 'Blow through the throttle body, behind the intercooler',
                set: { 'stages.path': 'blow-through', ...referencedRegulator(values) },
              },
            ]),
        { title: 'Leave the intercooler out', remove: ['stages.intercooler-effectiveness'] },
      ],
    };
  },
};
