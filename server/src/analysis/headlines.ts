import type { FigureId } from './figures.ts';

/** Figures to read first on a field, best first; the others of the field follow. */
export const headlines: Readonly<Record<string, readonly FigureId[]>> = {
  'throttle-body.injectors': [
    'required-static-flow',
    'injector-flow',
    'duty-peak-power',
    'duty-redline',
    'idle-pulse',
    'idle-pulse-margin',
    'power-covered-low',
    'power-covered-high',
    'injector-pressure',
  ],
  'throttle-body': [
    'airflow-needed',
    'depression',
    'airflow-share',
    'required-static-flow',
    'injector-flow',
    'duty-redline',
  ],
  'fuel-system.pump': [
    'required-delivery',
    'pump-delivery',
    'pump-margin',
    'pump-pressure',
    'pump-voltage',
    'suction-margin',
  ],
  'fuel-system': ['required-delivery', 'pump-delivery', 'pump-margin', 'rail-pressure', 'return-back-pressure'],
  stages: [
    'demand-by-power',
    'demand-by-air',
    'mean-effective-pressure',
    'injector-flow',
    'required-static-flow',
    'duty-peak-power',
    'duty-redline',
    'idle-pulse-margin',
    'required-delivery',
    'pump-delivery',
    'pump-margin',
    'depression',
    'sensor-pressure',
    'effective-compression',
  ],
};
