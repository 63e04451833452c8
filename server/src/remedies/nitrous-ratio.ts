import { nitrousShareOfChemistry, nitrousStoichiometricRatio } from '../analysis/nitrous.ts';
import { above, type Draft, type Situation } from '../checking/rule.ts';
import { gasoline } from '../engineering/fuels.ts';
import { NITROUS_FUEL_RATIO, stoichiometricNitrousRatio } from '../engineering/nitrous.ts';

/** Share of chemistry's ratio that is jetted for: 6 to 1 on gasoline. Common practice, from memory. */
const USUAL_SHARE = NITROUS_FUEL_RATIO / stoichiometricNitrousRatio(gasoline);

/** A ratio of nitrous to fuel over a share of what chemistry burns, and up to another; the words say what is the matter with it. */
export function nitrousRatioOver(
  { stage, see, show }: Situation,
  share: number,
  upTo: number,
  words: (ratio: string, chemistry: string) => string,
): Draft | undefined {
  const ratio = stage.nitrous?.ratio;
  const figure = see(nitrousShareOfChemistry);
  const chemistry = see(nitrousStoichiometricRatio);
  const miss = above(figure, share);
  if (!ratio || !figure || !chemistry || !miss || figure.value > upTo) return undefined;
  const usual = Number((chemistry.value * USUAL_SHARE).toFixed(1));
  return {
    at: 'stages.nitrous.ratio',
    message: words(show(ratio), chemistry.value.toFixed(1)),
    related: [{ at: 'fuel', message: 'The fuel that sets the ratio of chemistry.' }],
    ...miss,
    repairs: [{ title: `Jet it for ${usual} to 1`, set: { 'stages.nitrous.ratio': usual } }],
  };
}
