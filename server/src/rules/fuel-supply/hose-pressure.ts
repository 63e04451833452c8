import { returnBackPressure, returnBackPressureShare } from '../../analysis/supply.ts';
import { above, type Draft, type Repair, type Situation, type StageRule } from '../../checking/rule.ts';
import type { Line } from '../../generated/build-sheet.ts';
import {
  alcoholOf,
  feedPressure,
  lineClassOf,
  linesOf,
  materialName,
  workingPressure,
} from '../../remedies/line-class.ts';
import { coarselyUp } from '../../remedies/size.ts';

/** Room between the working pressure of a line and the highest pressure in it. Common practice. */
const HEADROOM = 1.25;
/** What a line for this pressure may be made of, best first. */
const CHOICES = ['ptfe', 'rubber-injection', 'steel-tube'] as const;

export const rule: StageRule = {
  id: 'fuel-supply/hose-pressure',
  title: 'A fuel line is not made for the pressure in it',
  severity: 'error',
  capacity: true,
  why: 'Carburetor hose swells, creeps off its barb or bursts at injection pressure, and sprays fuel over a hot engine: that is how cars burn. Line, ends and clamps must all be of a class above the highest pressure.',
  inspect:
    'Read the print on every hose, the short pieces at tank, filter and rail too. Worm-drive clamps and barbs made for a carburetor belong to low pressure.',
  remedy:
    'Replace it with line of a higher class and its own ends or clamps, and leak-test at working pressure with the engine off, by someone allowed to do so where you are.',
  source: 'SAE J30 and J2260, working pressures partly from memory and on the safe side, see the hose classes',
  check: (situation) =>
    linesOf(situation.values).flatMap(({ name, line }): Draft[] => {
      const { see, limit, compare } = situation;
      const isBackedUp = above(see(returnBackPressureShare), limit('return-share'));
      const highest = {
        suction: undefined,
        feed: feedPressure(situation),
        return: isBackedUp ? undefined : see(returnBackPressure),
      };
      const pressure = highest[name];
      const rated = ratingOf(line);
      const miss = rated && above(pressure, rated.pressure);
      if (!pressure || !miss) return [];
      const shown = compare(pressure, rated.pressure);
      return [
        {
          at: `fuel-system.${name}.${rated.field}`,
          message: `The pressure in the ${name} line reaches ${shown.value}, but ${rated.name} for ${shown.limit}.`,
          related: [{ at: 'fuel-system.regulator.pressure', message: 'The pressure that is held.' }],
          ...miss,
          repairs:
            rated.field === 'pressure-rating'
              ? higherRating(name, line, pressure.value)
              : strongerLines(situation, name, pressure.value),
        },
      ];
    }),
};

/** What a line stands, Pa, by its maker's rating or its material. */
function ratingOf(line: Line) {
  const rating = line['pressure-rating'];
  if (rating) return { field: 'pressure-rating', pressure: rating.value, name: 'the line is rated' } as const;
  if (!line.material) return undefined;
  const name = materialName[line.material];
  return { field: 'material', pressure: workingPressure(line.material).best, name: `${name} is made` } as const;
}

function higherRating(name: string, line: Line, pressure: number): Repair[] {
  const rating = line['pressure-rating'];
  if (!rating) return [];
  const higher = coarselyUp(pressure * HEADROOM, rating);
  return [
    { title: `Run a ${name} line rated for ${higher}`, set: { [`fuel-system.${name}.pressure-rating`]: higher } },
  ];
}

function strongerLines(situation: Situation, name: string, pressure: number): Repair[] {
  const { ethanol, methanol } = alcoholOf(situation);
  return CHOICES.filter((material) => {
    const { ethanolShare, methanol: standsMethanol } = lineClassOf(material);
    const standsFuel = ethanol <= ethanolShare && (methanol === 0 || standsMethanol);
    return standsFuel && workingPressure(material).sure >= pressure;
  }).map((material) => ({
    title: `Run the ${name} line in ${materialName[material]}`,
    set: { [`fuel-system.${name}.material`]: material },
  }));
}
