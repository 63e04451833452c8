import type { StageRule } from '../../checking/rule.ts';
import { fittingInjectors } from '../../remedies/injector-size.ts';
import { isBodyOversized } from '../../remedies/oversize.ts';
import { timesCovered } from '../../remedies/times-covered.ts';

export const rule: StageRule = {
  id: 'throttle-body/power-below-range',
  title: 'Power below the range of the injectors',
  severity: 'information',
  why: 'A set of injectors covers a range of power, and an engine below it idles on pulses too short to repeat. Dead time and shortest repeatable pulse from the maker would settle it.',
  inspect: 'Ask the maker for dead time and shortest repeatable pulse; with them the idle can be worked out.',
  remedy: 'Write the two times down, or fit smaller injectors.',
  source: 'common practice, from memory: a range of about five to one',
  check: (situation) => {
    const { values, stage, show, showValue } = situation;
    const times = timesCovered(situation);
    const flow = values['throttle-body']?.injectors?.['static-flow'];
    if (!times || !flow || !stage.power || isBodyOversized(situation)) return undefined;
    return {
      at: 'throttle-body.injectors',
      message: `At their duty limit these injectors feed ${showValue(stage.power.value * times, 'power')}, ${times.toFixed(1)} times the ${show(stage.power)} of this stage. Without dead time and shortest pulse nothing says that they still idle.`,
      related: [{ at: 'stages.power', message: 'The power to cover.' }],
      excess: times,
      repairs: fittingInjectors(situation),
    };
  },
};
