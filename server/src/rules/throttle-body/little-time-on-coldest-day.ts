import { COLDEST_SHARE, dutyColdest } from '../../analysis/coldest-day.ts';
import { withSpread } from '../../analysis/figure-words.ts';
import type { StageRule } from '../../checking/rule.ts';
import { coldDutyMiss, coldestDayInWords, siteRelated } from '../../remedies/coldest-day.ts';
import { slowerFiring } from '../../remedies/firing.ts';
import { fittingInjectors } from '../../remedies/injector-size.ts';

export const rule: StageRule = {
  id: 'throttle-body/little-time-on-coldest-day',
  title: 'Hardly any injector time left in cold, dense air',
  severity: 'warning',
  capacity: true,
  why: 'In the densest air it ever sees, the engine asks for nearly all the time there is. An injector needs the last few percent to open and close, so the mixture there is no longer what the computer wants, and nothing is left for a richer fuel.',
  inspect: 'Log the duty cycle at full load on a cold morning at the lowest place it is driven.',
  remedy: 'Somewhat larger injectors, or write down how low and how cold it gets if the car never sees such a day.',
  source:
    'air mass by the air term of SAE J1349 (1990), read in secondary copies; kinematics of the four-stroke cycle; 95 % is common practice',
  check: (situation) => {
    const { see, showValue } = situation;
    const miss = coldDutyMiss(situation, COLDEST_SHARE);
    const duty = see(dutyColdest);
    if (!miss || !duty || coldDutyMiss(situation, 1)) return undefined;
    const { day, assumed } = coldestDayInWords(situation);
    return {
      at: 'throttle-body.injectors',
      message: `${day} the injectors are open for ${withSpread(duty, showValue)} of the time, over ${showValue(COLDEST_SHARE, 'ratio')}.${assumed}`,
      related: siteRelated(situation),
      day: 'the coldest, lowest day',
      ...miss,
      repairs: [...fittingInjectors(situation, dutyColdest), ...slowerFiring(situation, 1 / 2)],
    };
  },
};
