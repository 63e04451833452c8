import { stoichiometric as stoichiometricFigure } from '../../analysis/fuel.ts';
import { dutyAtPeakPower } from '../../analysis/full-load-injection.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import { gasoline, stoichiometricRatio } from '../../engineering/fuels.ts';
import { roundedUp } from '../../remedies/size.ts';

/** Gasoline with 10 % ethanol still counts as gasoline: its stoichiometric ratio is 4 % lower. */
const GASOLINE_SPREAD = 0.95;

export const rule: StageRule = {
  id: 'throttle-body/power-rating',
  title: 'Power over the rating of the throttle body',
  severity: 'warning',
  capacity: true,
  why: "The maker's rating counts injectors, bores and driver together: beyond it one of them is at its end, and the mixture turns lean at full power. On alcohol fuels the same injectors feed less power.",
  inspect: 'Read what the maker rates the throttle body for, and on which fuel.',
  remedy: 'A body with a higher rating, or two as one set; the duty cycle shows how close the injectors are.',
  source: "the maker's rating on gasoline; other fuels in proportion to the stoichiometric ratio, common practice",
  check: ({ values, stage, see, limit, compare }) => {
    const rating = values['throttle-body']?.['power-rating'];
    const bodies = values['throttle-body']?.quantity ?? 1;
    const ratio = see(stoichiometricFigure);
    const isToldByDuty = above(see(dutyAtPeakPower), limit('largest-duty'));
    if (!rating || !stage.power || !ratio || isToldByDuty) return undefined;
    const scaled = ratio.value / stoichiometricRatio(gasoline);
    const share = scaled > GASOLINE_SPREAD ? 1 : scaled;
    const most = rating.low * bodies * share;
    if (stage.power.high <= most) return undefined;
    const onlyAtBadEnd = stage.power.value <= rating.value * bodies * share;
    const shown = compare(stage.power, rating.value * bodies * share);
    const better = roundedUp(stage.power.high / share / bodies, rating);
    return {
      at: 'throttle-body.power-rating',
      message: `${shown.value} ${onlyAtBadEnd ? 'can be' : 'is'} over the ${shown.limit} that ${bodies === 1 ? 'the throttle body is' : `the ${bodies} throttle bodies are`} rated for${share < 1 ? ' on this fuel' : ''}.`,
      related: [{ at: 'stages.power', message: 'The power of this stage.' }],
      excess: stage.power.value - most,
      onlyAtBadEnd,
      repairs: [{ title: `Fit a throttle body rated for ${better}`, set: { 'throttle-body.power-rating': better } }],
    };
  },
};
