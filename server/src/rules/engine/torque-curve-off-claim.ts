import { stagePower } from '../../analysis/power.ts';
import { powerByCurve } from '../../analysis/torque.ts';
import type { StageRule } from '../../checking/rule.ts';
import { percent } from '../../remedies/percent.ts';
import { roundedDown } from '../../remedies/size.ts';

/** Share by which two runs of one engine may differ. Common practice. */
const APART = 0.1;

export const rule: StageRule = {
  id: 'engine/torque-curve-off-claim',
  title: 'Torque curve and power claim do not belong together',
  severity: 'warning',
  why: 'Power is torque times speed. Where the curve makes another power at peak-power speed than the one claimed, one of the three is of another engine, another day or another place to measure, and everything is sized by the claim.',
  inspect:
    'On the sheet of the run, read torque and power at the same speed, and whether they hold at the crank or at the wheels.',
  remedy: 'Claim what the curve makes, or write down the curve, at the crank, of the engine that makes the claim.',
  source: 'definition of power; 10 % between two runs: common practice',
  check: ({ index, see, know, stage, values, show, showValue }) => {
    if (index > 0 || !values.engine?.['torque-curve']) return undefined;
    const curve = see(powerByCurve);
    const claim = know(stagePower);
    const speed = values.engine['peak-power-speed'];
    if (!curve || claim === undefined || !stage.power || !speed) return undefined;
    const apart = curve.value / claim - 1;
    if (Math.abs(apart) <= APART) return undefined;
    const power = roundedDown((stage.power.value * curve.value) / claim, stage.power);
    return {
      at: 'engine.torque-curve',
      message: `At ${show(speed)} the torque curve makes ${show(curve)}, ${percent(Math.abs(apart))} ${apart > 0 ? 'more' : 'less'} than the ${showValue(claim, 'power')} claimed at the crank.`,
      related: [
        { at: 'stages.power', message: 'The claim.' },
        { at: 'engine.peak-power-speed', message: 'The speed.' },
      ],
      repairs: [{ title: `Claim ${power}`, set: { 'stages.power': power } }],
    };
  },
};
