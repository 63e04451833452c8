import { throttleSwing, throttleValveShareAtHalf } from '../../analysis/transmission.ts';
import type { Repair, Situation, StageRule } from '../../checking/rule.ts';
import { cableTravel } from '../../engineering/cable.ts';

/** Share of the travel at half throttle that a sound geometry gives. Common practice, from memory. */
const LEAST = 0.4;
const MOST = 0.6;

export const rule: StageRule = {
  id: 'throttle-body/throttle-valve-cable-curve',
  title: 'Cable of the transmission does not follow the throttle',
  severity: 'warning',
  why: 'The transmission was built for a cable that goes with the throttle, step by step. Where the stud stands too low the cable hardly moves over the first half: the car shifts early, with little pressure, and slips at part throttle. Where it stands too high, shifts are late and hard.',
  inspect: 'Engine off: mark the cable at idle, at half and at full throttle and compare the two stretches.',
  remedy:
    'Turn the lever on its shaft, or raise the cable bracket, until lever and cable stand square near half throttle.',
  source: 'plane trigonometry; 40 to 60 % at half throttle is common practice, from memory',
  check: (situation) => {
    const {
      values: { transmission },
      see,
      show,
      showValue,
    } = situation;
    if (transmission?.['load-signal'] !== 'throttle-valve-cable' || !transmission['lever-radius']) return undefined;
    const share = see(throttleValveShareAtHalf);
    const angle = transmission['lever-angle'];
    if (!share || !angle || (share.value >= LEAST && share.value <= MOST)) return undefined;
    return {
      at: 'transmission.lever-angle',
      message: `At half throttle the cable of the transmission has done ${show(share)} of its travel; ${showValue(LEAST, 'ratio')} to ${showValue(MOST, 'ratio')} is sound. Set the lever so that it stands square to the cable near half throttle.`,
      excess: Math.max(LEAST - share.value, share.value - MOST),
      repairs: [squared(situation)],
    };
  },
};

/** The lever square to the cable at half throttle, and its stud where the travel is the one the transmission wants. */
function squared({ values: { transmission }, know, showValue }: Situation): Repair {
  const swing = know(throttleSwing) ?? 0;
  const angle = 90 - swing / 2;
  const wanted = transmission?.['cable-travel']?.value;
  const radius = wanted && showValue(wanted / cableTravel({ radius: 1, angle, swing }), 'length');
  return {
    title: `Set the lever square to the cable at half throttle${radius ? `, its stud ${radius} from the shaft` : ''}`,
    set: {
      'transmission.lever-angle': showValue(angle, 'angle'),
      ...(radius && { 'transmission.lever-radius': radius }),
    },
    shows: throttleValveShareAtHalf,
  };
}
