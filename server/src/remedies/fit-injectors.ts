import type { BuildSheet } from '../generated/build-sheet.ts';

/** The title of a repair that fits injectors of a static flow, with the pressure at which that flow holds. */
export function fitInjectors(values: Partial<BuildSheet>, size: string): string {
  const rated = values['throttle-body']?.injectors?.['rated-pressure'];
  return `Fit injectors of ${size}${rated ? ` at ${rated.text}` : ''}`;
}
