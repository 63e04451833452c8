import { injectorCount, pulsesPerCycle } from '../../analysis/injectors.ts';
import type { StageRule } from '../../checking/rule.ts';
import { firingWith, leastPulses, sharesPlenum } from '../../remedies/firing.ts';

export const rule: StageRule = {
  id: 'throttle-body/pulses-too-few',
  title: 'Too few pulses for the cylinders that share them',
  severity: 'warning',
  why: 'One throttle body feeds all cylinders through the air of one plenum. When it sprays less often than every other intake stroke, some cylinders draw a cloud of fuel and others mostly air: the engine shakes, one bank fouls its plugs and the other runs lean.',
  inspect:
    'Compare the plugs of all cylinders after a steady pull: light and dark ones side by side mean too few pulses.',
  remedy: 'Fire the injectors more often, or spread the fuel over more injectors that take turns.',
  source: 'common practice: at least one pulse for every two cylinders',
  check: (situation) => {
    const { values, see, know } = situation;
    const cylinders = values.engine?.cylinders;
    const [count, each] = [see(injectorCount), know(pulsesPerCycle)];
    if (!cylinders || !count || !each || !sharesPlenum(situation)) return undefined;
    const pulses = count.value * each;
    if (pulses >= leastPulses(cylinders)) return undefined;
    return {
      at: values['throttle-body']?.injectors?.firing ? 'throttle-body.injectors.firing' : 'throttle-body.injectors',
      message: `${count.value === 1 ? 'One injector' : `${count.value} injectors`} with ${each === 1 ? 'one pulse' : `${each} pulses`} a cycle ${count.value === 1 ? 'gives' : 'give'} ${pulses} for ${cylinders} cylinders; at least ${leastPulses(cylinders)} are wanted.`,
      related: [{ at: 'engine.cylinders', message: 'They share one plenum.' }],
      excess: leastPulses(cylinders) - pulses,
      repairs: firingWith(situation, (one) => one > each && count.value * one >= leastPulses(cylinders)).toReversed(),
    };
  },
};
