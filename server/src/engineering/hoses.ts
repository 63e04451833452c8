import { PSI } from './constants.ts';

/**
 * A class of fuel hose or tube: the gauge pressure every line of it stands, Pa, and the highest that better ones are
 * printed with; the largest share of ethanol by volume and whether methanol may stand in it; whether it may lie in fuel.
 * What is printed on the hose and its maker's data go before this table: it is deliberately on the safe side.
 */
export type LineClass = {
  readonly name: string;
  readonly use: string;
  readonly workingPressure: number;
  readonly printedUpTo?: number;
  readonly ethanolShare: number;
  readonly methanol: boolean;
  readonly submersible: boolean;
  readonly source: string;
};

/**
 * The classes known to the tool, also shown as a page of the reference. Sections are those of SAE J30 JUN1998 by its
 * published scope; values marked "from memory" could not be read in the standard itself. SAE J1737 is not among them: it is
 * (from memory) a test of how much fuel passes through the wall, not a class of pressure.
 */
export const lineClasses: readonly LineClass[] = [
  {
    name: 'SAE J30 R6',
    use: 'low-pressure hose: carburetor supply, vent and vapor',
    workingPressure: 35 * PSI,
    ethanolShare: 0.1,
    methanol: false,
    submersible: false,
    source: 'SAE J30, section 6 (low pressure); pressure and ethanol from memory, lowest of the sizes',
  },
  {
    name: 'SAE J30 R7',
    use: 'low-pressure hose: carburetor supply and vapor',
    workingPressure: 35 * PSI,
    printedUpTo: 50 * PSI,
    ethanolShare: 0.1,
    methanol: false,
    submersible: false,
    source: 'SAE J30, section 6 (low pressure); from memory 50 psi up to 3/8 in and 35 psi above; ethanol from memory',
  },
  {
    name: 'SAE J30 R9',
    use: 'injection hose for gasoline: feed and return',
    workingPressure: 100 * PSI,
    printedUpTo: 180 * PSI,
    ethanolShare: 0.15,
    methanol: false,
    submersible: false,
    source:
      'SAE J30, section 7 (injection, medium pressure); pressures from memory; ethanol from memory: tested with blends of 15 % alcohol',
  },
  {
    name: 'SAE J30 R10',
    use: 'hose lying in fuel: inside the tank',
    workingPressure: 50 * PSI,
    ethanolShare: 0.85,
    methanol: false,
    submersible: true,
    source: 'SAE J30, section 8 (in-tank, low pressure); pressure and ethanol from memory',
  },
  {
    name: 'SAE J30 R12',
    use: 'low-permeation injection hose: feed and return, alcohol blends where its maker names them',
    workingPressure: 100 * PSI,
    printedUpTo: 225 * PSI,
    ethanolShare: 0.85,
    methanol: false,
    submersible: false,
    source: 'SAE J30, section 11 (feed and return, low permeation); pressures and ethanol from memory',
  },
  {
    name: 'SAE J30 R14',
    use: 'low-permeation hose of low pressure: carburetor supply, return to the tank, vent',
    workingPressure: 50 * PSI,
    printedUpTo: 100 * PSI,
    ethanolShare: 0.85,
    methanol: false,
    submersible: false,
    source: 'SAE J30 R14 (low pressure, low permeation); pressures and ethanol from memory',
  },
  {
    name: 'SAE J2260',
    use: 'nonmetallic (polyamide) fuel tube',
    workingPressure: 450e3,
    ethanolShare: 0.85,
    methanol: false,
    submersible: false,
    source:
      'SAE J2260 scope: 450 kPa gauge from -40 to 90 degC, gasoline and alcohol blends; ethanol limit from memory',
  },
  {
    name: 'SAE J2045',
    use: 'fuel tube assembly with its connectors',
    workingPressure: 690e3,
    ethanolShare: 0.85,
    methanol: false,
    submersible: false,
    source: 'SAE J2045 scope: 690 kPa gauge up to 115 degC, gasoline and alcohol blends; ethanol limit from memory',
  },
  {
    name: 'PTFE-lined braided hose',
    use: 'feed and return with crimped or reusable ends',
    workingPressure: 500 * PSI,
    ethanolShare: 1,
    methanol: true,
    submersible: false,
    source: 'from memory: 1000 psi and more is usual for 3/8 to 1/2 in; a conducting lining is needed for fuel',
  },
  {
    name: 'steel tube',
    use: 'hard line with flared or bite-type ends',
    workingPressure: 500 * PSI,
    ethanolShare: 0.85,
    methanol: false,
    submersible: false,
    source: 'from memory: far below burst of 3/8 x 0.035 in brazed steel tube; bare steel rusts in wet alcohol',
  },
  {
    name: 'stainless steel tube',
    use: 'hard line with flared ends',
    workingPressure: 500 * PSI,
    ethanolShare: 1,
    methanol: true,
    submersible: true,
    source: 'from memory: far below burst of 3/8 x 0.035 in annealed tube',
  },
  {
    name: 'nickel-copper tube',
    use: 'hard line with flared ends',
    workingPressure: 500 * PSI,
    ethanolShare: 0.85,
    methanol: false,
    submersible: false,
    source: 'from memory: far below burst of 3/8 x 0.035 in tube',
  },
  {
    name: 'aluminum tube',
    use: 'hard line, well supported: it cracks from vibration',
    workingPressure: 150 * PSI,
    ethanolShare: 0.1,
    methanol: false,
    submersible: false,
    source: 'from memory: far below burst of 3/8 x 0.035 in tube; alcohol attacks bare aluminum',
  },
];
