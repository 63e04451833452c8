import { field, larger, optional } from './node.ts';

export const cylinders = field('engine.cylinders', 'n_cyl');
export const displacement = field('engine.displacement', 'V_d');
export const compressionRatio = field('engine.compression-ratio', 'CR');
export const idleSpeed = field('engine.idle', 'N_i');
export const peakPowerSpeed = field('engine.peak-power-speed', 'N_p');
export const camDuration = field('engine.cam-duration', 'cam');
/** The cam's duration; nothing where it is not known. */
export const knownCam = optional(camDuration);
export const redline = field('engine.redline', 'N_r');
/** Speed at which the time for a pulse is shortest. */
export const highestSpeed = larger(redline, peakPowerSpeed);
