import { demandVolume } from '../../analysis/operating-points.ts';
import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'fuel-supply/surge-tank-fed-mechanically',
  title: 'A mechanical pump keeps the surge tank full',
  severity: 'information',
  why: 'The old pump moves fuel only while the engine turns, so after a long stand the surge tank has to have kept its fuel for the start. It sucks from the far end of a hot car, so it vapor-locks first, and it was sized for a carburetor.',
  inspect: 'Compare what the old pump is rated for at full engine speed with what the engine takes.',
  remedy: 'Fit an electric lift pump, which runs whether the engine turns or not; the mechanical one can come off.',
  source: 'common practice',
  cautions: ['used-tank'],
  check: ({ values, see, show }) => {
    const system = values['fuel-system'];
    if (system?.pump?.placement !== 'surge-tank') return undefined;
    const isStated = system.pump['fed-by'] === 'mechanical-pump';
    const isFed = system['mechanical-pump'] === 'feeds-surge-tank';
    if (!isFed || (system.pump['fed-by'] && !isStated)) return undefined;
    const demand = see(demandVolume);
    return {
      at: 'fuel-system.mechanical-pump',
      message: demand
        ? `The mechanical pump has to bring the ${show(demand)} that the engine takes out of the surge tank at full power.`
        : 'The mechanical pump has to bring all that the engine takes out of the surge tank at full power.',
      related: [{ at: 'fuel-system.pump.placement', message: 'The surge tank.' }],
      repairs: [
        {
          title: 'Feed the surge tank with an electric lift pump',
          set: { 'fuel-system.pump.fed-by': 'lift-pump', 'fuel-system.mechanical-pump': 'removed' },
        },
      ],
    };
  },
};
