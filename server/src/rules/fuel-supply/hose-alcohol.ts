import type { Draft, StageRule } from '../../checking/rule.ts';
import { alcoholOf, lineClassOf, linesOf, materialName } from '../../remedies/line-class.ts';

/** What an alcohol line may be made of, best first. */
const CHOICES = ['ptfe', 'rubber-injection-alcohol', 'nylon'] as const;

export const rule: StageRule = {
  id: 'fuel-supply/hose-alcohol',
  title: 'A fuel line is not made for the alcohol in the fuel',
  severity: 'error',
  why: 'Alcohol draws the softeners out of common rubber and rusts bare steel: the hose hardens, cracks and leaks, and what it loses clogs filters and injectors. A fuel leak in the engine bay is a fire, so use line whose maker names the fuel.',
  inspect:
    'Read the print on every hose, the short ones at tank and pump too, and squeeze them: hard or cracked means too late already.',
  remedy:
    'Run line whose maker names the fuel, with seals and filter to match. The hose classes in the reference show what each one takes.',
  source:
    'SAE J30 and J2260, limits from memory, see the hose classes; DOE/GO-102016-4854, Handbook for Handling, Storing, and Dispensing E85 (2016)',
  cautions: ['alcohol'],
  check: (situation) => {
    const { ethanol, methanol } = alcoholOf(situation);
    const stands = (material: Parameters<typeof lineClassOf>[0]) => {
      const kind = lineClassOf(material);
      return ethanol <= kind.ethanolShare + 1e-9 && (methanol === 0 || kind.methanol);
    };
    return linesOf(situation.values).flatMap(({ name, line }): Draft[] => {
      if (!line.material || line.material === 'aluminum-tube' || stands(line.material)) return [];
      const fuel = methanol > 0 ? 'methanol' : `fuel with ${situation.showValue(ethanol, 'ratio')} ethanol`;
      return [
        {
          at: `fuel-system.${name}.material`,
          message: `The ${name} line is ${materialName[line.material]}, which does not stand ${fuel}.`,
          related: situation.values.fuel ? [{ at: 'fuel', message: 'The fuel of this stage.' }] : [],
          repairs: CHOICES.filter(stands).map((material) => ({
            title: `Run the ${name} line in ${materialName[material]}`,
            set: { [`fuel-system.${name}.material`]: material },
          })),
        },
      ];
    });
  },
};
