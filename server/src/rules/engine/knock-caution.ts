import { sitePressure } from '../../analysis/air.ts';
import { effectiveCompression } from '../../analysis/compression.ts';
import { withSpread } from '../../analysis/figure-words.ts';
import { alcohol as alcoholOfFuel } from '../../analysis/fuel.ts';
import { above, type Repair, type Situation, type StageRule } from '../../checking/rule.ts';
import type { Fuel } from '../../generated/build-sheet.ts';
import { fuelName } from '../../remedies/fuel-name.ts';
import { percent } from '../../remedies/percent.ts';
import { roundedDown } from '../../remedies/size.ts';
import type { Quantity } from '../../units/quantity.ts';

/** Octane, (R+M)/2, the house's limit is meant for. Common practice. */
const USUAL_OCTANE = 91;
/** Compression ratio that one octane number is worth: about four numbers for a whole ratio. Common practice, from memory. */
const RATIO_PER_OCTANE = 0.25;
/** What neat ethanol and methanol allow over gasoline of 91 octane, their cooling included. Common practice, from memory. */
const ETHANOL_ALLOWANCE = 3.5;
const METHANOL_ALLOWANCE = 4;
/** The most octane that is sold as gasoline for the track, and the share of ethanol in E85. Common practice. */
const MOST_OCTANE = 100;
const E85_SHARE = 0.85;
/** Boost below which a blower is not worth its drive: 2 psi (Pa). Common practice. */
const LEAST_BOOST = 13.8e3;
const SEA_LEVEL_PRESSURE = 101325;

export const rule: StageRule = {
  id: 'engine/knock-caution',
  title: 'Compression high for the fuel',
  severity: 'warning',
  why: 'Knock breaks pistons and head gaskets, often before it is heard. The effective ratio counts pressure and forgets heat, chamber and cam: take it as a reason for a second look by an engine builder, less timing and a careful start of tuning, never as proof that the engine is safe below it.',
  inspect:
    'Measure compression ratio from chamber, deck, gasket and piston, not from the box. Read the octane on the pump you will use on the road. After a pull look at the plugs: specks on the porcelain are aluminum.',
  remedy:
    'Less boost or compression, more octane, cooler charge, less timing; an engine builder says which this engine stands.',
  source: 'common practice: effective compression ratio, 12 on gasoline of 91 octane',
  check: (situation) => {
    const { values, stage, see, know, limit } = situation;
    const { fuel, engine } = values;
    const ratio = see(effectiveCompression);
    if (!fuel?.grade || !ratio) return undefined;
    const most = limit('octane-caution') + allowance(fuel, know(alcoholOfFuel));
    const miss = above(ratio, most);
    if (!miss) return undefined;
    const isBoosted = (stage.boost?.value ?? 0) > 0 && stage.induction !== undefined && stage.induction !== 'natural';
    return {
      at: isBoosted ? 'stages.boost' : 'engine.compression-ratio',
      message: `The effective compression ratio is ${withSpread(ratio, situation.showValue)}, over the ${Number(most.toFixed(1))} that ${fuelText(fuel)} is usually trusted with.`,
      related: [
        ...(isBoosted
          ? [{ at: 'engine.compression-ratio' as const, message: 'Together with this compression ratio.' }]
          : []),
        { at: fuel.octane === undefined ? 'fuel' : 'fuel.octane', message: 'On this fuel.' },
      ],
      ...miss,
      repairs: [
        ...(isBoosted ? lessBoost(situation, most) : []),
        ...moreOctane(fuel, ratio.high ?? ratio.value, limit('octane-caution')),
        ...alcohol(fuel, ratio.high ?? ratio.value, limit('octane-caution')),
        ...lessCompression(engine?.['compression-ratio'], (most / (ratio.high ?? ratio.value)) * 0.999),
      ],
    };
  },
};

/** How much more than on gasoline of 91 octane is trusted. */
function allowance(fields: Fuel, shares = { ethanol: 0, methanol: 0 }): number {
  if (isGasoline(fields)) return ((fields.octane ?? USUAL_OCTANE) - USUAL_OCTANE) * RATIO_PER_OCTANE;
  return shares.ethanol * ETHANOL_ALLOWANCE + shares.methanol * METHANOL_ALLOWANCE;
}

function isGasoline({ grade }: Fuel): boolean {
  return grade === 'gasoline' || grade === 'gasoline-e10';
}

function fuelText(fields: Fuel): string {
  if (!isGasoline(fields)) return fuelName(fields.grade);
  const octane = fields.octane === undefined ? `${USUAL_OCTANE} octane, as assumed,` : `${fields.octane} octane`;
  return `gasoline of ${octane}`;
}

function lessBoost({ stage, see, values }: Situation, most: number): Repair[] {
  const compression = values.engine?.['compression-ratio'];
  const ambient = see(sitePressure);
  if (!stage.boost || !compression || !ambient) return [];
  const boost = (most / compression.high) * SEA_LEVEL_PRESSURE - ambient.value;
  if (boost < LEAST_BOOST) return [];
  const text = roundedDown(boost, stage.boost);
  return [{ title: `Limit the boost to ${text}`, set: { 'stages.boost': text }, shows: effectiveCompression }];
}

function moreOctane(fields: Fuel, ratio: number, caution: number): Repair[] {
  const octane = Math.ceil(USUAL_OCTANE + (ratio - caution) / RATIO_PER_OCTANE - 1e-9);
  if (!isGasoline(fields) || octane > MOST_OCTANE) return [];
  return [{ title: `Run gasoline of ${octane} octane`, set: { 'fuel.octane': octane } }];
}

function alcohol(fields: Fuel, ratio: number, caution: number): Repair[] {
  if (ratio > caution + E85_SHARE * ETHANOL_ALLOWANCE) return [];
  return [
    {
      title: 'Run E85, with injectors, pump and hoses to suit',
      set: { 'fuel.grade': 'e85', ...(fields['ethanol-share'] && { 'fuel.ethanol-share': percent(E85_SHARE) }) },
      ...(fields.octane !== undefined && { remove: ['fuel.octane'] }),
    },
  ];
}

function lessCompression(compression: Quantity | undefined, share: number): Repair[] {
  if (!compression) return [];
  const text = roundedDown(compression.value * share, compression);
  return [
    {
      title: `Build the engine with a compression ratio of ${text}`,
      set: { 'engine.compression-ratio': Number(text) },
      shows: effectiveCompression,
    },
  ];
}
