import type { Draft, StageRule } from '../../checking/rule.ts';
import { alcoholOf, lineClassOf, linesOf, materialName } from '../../remedies/line-class.ts';

/** What an alcohol line may be made of, best first. */
const CHOICES = ['ptfe', 'rubber-injection-alcohol'] as const;

export const rule: StageRule = {
  id: 'fuel-supply/aluminum-alcohol',
  title: 'Aluminum line carries alcohol fuel',
  severity: 'error',
  why: 'Alcohol in quantity takes the oxide off bare aluminum and eats on until the wall is through; cars in service have leaked and burned from it. The aluminum that dissolves comes out again as gel in filters and injectors.',
  inspect:
    'Gray, soft tube that a file bites into is aluminum. Look for white bloom at the flares and for gel in the filter.',
  remedy:
    'Run the line in PTFE-lined hose or stainless tube, and flush tank, filter and injectors. Hard-anodized fittings last longer than bare ones, not forever.',
  source:
    'Kameoka, Nagai, Sugiyama and Seko, SAE 2005-01-3708 (2005): aluminum corroded by fuels with much alcohol; limit as gasoline of 10 % ethanol',
  cautions: ['alcohol'],
  check: (situation) => {
    const { ethanol, methanol } = alcoholOf(situation);
    if (methanol === 0 && ethanol <= lineClassOf('aluminum-tube').ethanolShare + 1e-9) return [];
    const fuel = methanol > 0 ? 'methanol' : `fuel with ${situation.showValue(ethanol, 'ratio')} ethanol`;
    return linesOf(situation.values).flatMap(({ name, line }): Draft[] => {
      if (line.material !== 'aluminum-tube') return [];
      return [
        {
          at: `fuel-system.${name}.material`,
          message: `The ${name} line is bare aluminum and carries ${fuel}.`,
          related: situation.values.fuel ? [{ at: 'fuel', message: 'The fuel of this stage.' }] : [],
          repairs: CHOICES.filter((material) => methanol === 0 || lineClassOf(material).methanol).map((material) => ({
            title: `Run the ${name} line in ${materialName[material]}`,
            set: { [`fuel-system.${name}.material`]: material },
          })),
        },
      ];
    });
  },
};
