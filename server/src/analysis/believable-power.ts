import { type Build, boostedBmep, buildOfCam, naturalBmep } from '../engineering/bmep.ts';
import { standardPower } from '../engineering/claim.ts';
import { brakeMeanEffectivePressure, type Range } from '../engineering/demand.ts';
import { densityRatio, drivePower } from './boost.ts';
import { ordinaryAir, powerCondition } from './claim.ts';
import { displacement, knownCam, peakPowerSpeed } from './engine.ts';
import { isBoosted } from './induction.ts';
import { choose, fact, figure, type Node } from './node.ts';

/** How far the engine is built for speed; nothing where the cam is not known. */
export const engineBuild = fact({
  id: 'build-of-the-engine',
  from: { knownCam },
  compute: ({ knownCam }): Build | undefined => (knownCam === undefined ? undefined : buildOfCam(knownCam)),
});

/** Power in the air of the claim over that in standard air. */
const claimShare = fact({
  id: 'power-share-of-the-claim',
  from: { powerCondition, ordinaryAir },
  compute: ({ powerCondition, ordinaryAir }) => 1 / standardPower(1, powerCondition, ordinaryAir),
});

const naturalRange = fact({
  id: 'believable-natural-pressure',
  from: { engineBuild, claimShare },
  compute: ({ engineBuild, claimShare }) =>
    ofBuild(engineBuild, (build) => {
      const { low, usual, high } = naturalBmep[build];
      return { low: low * claimShare, usual: usual * claimShare, high: high * claimShare };
    }),
});

/** Mean effective pressure that driving the blower takes, Pa. */
const drivePressure = fact({
  id: 'pressure-that-drives-the-blower',
  from: { drivePower, displacement, peakPowerSpeed },
  compute: ({ drivePower, displacement, peakPowerSpeed }) =>
    drivePower > 0 ? brakeMeanEffectivePressure(drivePower, displacement, peakPowerSpeed) : 0,
});

const boostedRange = fact({
  id: 'believable-boosted-pressure',
  from: { engineBuild, claimShare, densityRatio, drivePressure },
  compute: (v) => ofBuild(v.engineBuild, (build) => boostedBmep(build, v.densityRatio * v.claimShare, v.drivePressure)),
});

/** The range of a build; from that of a mild engine to that of a racing one where the build is not known. */
function ofBuild(build: Build | undefined, range: (build: Build) => Range): Range {
  if (build) return range(build);
  const mild = range('mild');
  return { ...mild, high: range('racing').high };
}

const believable: Node<Range> = choose({
  id: 'believable-pressure',
  from: { isBoosted },
  among: ({ isBoosted }) => (isBoosted ? boostedRange : naturalRange),
});

const WORDS: Readonly<Record<keyof Range, { symbol: string; name: string }>> = {
  low: { symbol: 'BMEP_min', name: 'least mean effective pressure to believe at peak power' },
  usual: { symbol: 'BMEP_usual', name: 'usual mean effective pressure of such an engine at peak power' },
  high: { symbol: 'BMEP_max', name: 'most mean effective pressure to believe at peak power' },
};

const FORMULAS: Readonly<Record<keyof Range, string>> = {
  low: '0.75 (BMEP_n DR a - drive)',
  usual: 'BMEP_n DR a - drive',
  high: 'max(1.15 (BMEP_n DR a - drive), BMEP_n,max DR a - drive)',
};

function believableEnd<const Id extends string>(id: Id, end: keyof Range) {
  return figure({
    ...WORDS[end],
    id,
    dimension: 'pressure',
    formula: ({ isBoosted }) =>
      isBoosted ? FORMULAS[end] : 'that of its cam * a, the air of the claim over the standard',
    source:
      'common practice: 130 to 150 psi of a mild engine at peak power, 160 to 180 with a long cam, 200 of a racing one; with boost times density ratio',
    home: ['stages', 'stages.power', 'engine.cam-duration'],
    notes: ({ engineBuild }) => (engineBuild ? [] : ['cam not known: from a mild engine to a racing one']),
    from: { believable, engineBuild, isBoosted },
    compute: ({ believable }) => believable[end],
  });
}

export const leastPressure = believableEnd('mean-effective-pressure-least', 'low');
export const usualPressure = believableEnd('mean-effective-pressure-usual', 'usual');
export const mostPressure = believableEnd('mean-effective-pressure-most', 'high');

/** Most mean effective pressure of an engine with a mild cam, Pa: above it the cam decides whether a claim is believed. */
export const mostOfMildCam = fact({
  id: 'most-pressure-of-a-mild-cam',
  from: { claimShare },
  compute: ({ claimShare }) => naturalBmep.mild.high * claimShare,
});
