import type { Fuel } from '../generated/build-sheet.ts';

/** What a grade of fuel is called in a sentence. */
export function fuelName(grade: Fuel['grade']): string {
  if (grade === 'gasoline-e10') return 'gasoline with 10 % ethanol';
  return grade === 'e85' ? 'E85' : `${grade}`;
}
