import { dutyColdest, requiredStaticFlowColdest } from '../../analysis/coldest-day.ts';
import type { StageRule } from '../../checking/rule.ts';
import { coldDutyMiss, coldestDayInWords, siteRelated } from '../../remedies/coldest-day.ts';
import { slowerFiring } from '../../remedies/firing.ts';
import { fittingInjectors } from '../../remedies/injector-size.ts';

export const rule: StageRule = {
  id: 'throttle-body/no-time-on-coldest-day',
  title: 'Not enough injector time in cold, dense air',
  severity: 'error',
  capacity: true,
  why: 'Cold air near the sea is denser, so the same engine takes more of it and needs more fuel. Injectors that suit the air the power was measured in may then be open all the time and still give too little: the engine goes lean at full power, where lean breaks pistons, on the day the engine pulls hardest.',
  inspect: 'Log the duty cycle at full load on a cold morning at the lowest place it is driven, and watch the mixture.',
  remedy:
    'Injectors for the densest air, not for the air at home. If it never comes down there, write down how low it goes.',
  source:
    'air mass by the air term of SAE J1349 (1990), read in secondary copies; kinematics of the four-stroke cycle; no margin is counted twice',
  cautions: ['knock'],
  check: (situation) => {
    const { see, show } = situation;
    const miss = coldDutyMiss(situation, 1);
    const duty = see(dutyColdest);
    if (!miss || !duty) return undefined;
    const { day, assumed } = coldestDayInWords(situation);
    const needed = see(requiredStaticFlowColdest);
    return {
      at: 'throttle-body.injectors',
      message: `${day} the injectors would need ${(duty.high ?? duty.value).toFixed(2)} times the time there is.${needed ? ` Each needs ${show(needed)} there.` : ''}${assumed}`,
      related: siteRelated(situation),
      day: 'the coldest, lowest day',
      ...miss,
      repairs: [...fittingInjectors(situation, dutyColdest), ...slowerFiring(situation, 1 / 2)],
    };
  },
};
