import { field } from './node.ts';

/** Highest temperature the computer may have at its case, K. */
export const ratedComputerTemperature = field('computer.rated', 'T_c', {
  value: 358.15,
  because: 'common practice, from memory: 85 degC for electronics not made for the engine bay',
});
