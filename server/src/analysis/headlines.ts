import type { Limits } from '../generated/build-sheet.ts';
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
    'required-static-flow',
    'duty-redline',
    'required-delivery',
    'pump-margin',
    'mean-effective-pressure',
    'depression',
    'idle-pulse-margin',
    'demand-by-power',
    'demand-by-air',
    'injector-flow',
    'duty-peak-power',
    'pump-delivery',
    'sensor-pressure',
    'effective-compression',
  ],
};

/** What a figure is held against: a limit of the sheet or house, or a number in SI, and on which side of it is sound. */
export type HeldAgainst = { side: 'at most' | 'at least'; limit: (keyof Limits & string) | number };

export const heldAgainst: Readonly<Record<string, HeldAgainst>> = {
  'duty-peak-power': { side: 'at most', limit: 'largest-duty' },
  'duty-redline': { side: 'at most', limit: 'largest-duty' },
  'duty-highest': { side: 'at most', limit: 'largest-duty' },
  'idle-pulse-margin': { side: 'at least', limit: 1 },
  'pump-margin': { side: 'at least', limit: 0 },
  depression: { side: 'at most', limit: 'pressure-drop' },
  'feed-velocity': { side: 'at most', limit: 'feed-velocity' },
  'suction-velocity': { side: 'at most', limit: 'suction-velocity' },
  'return-back-pressure-share': { side: 'at most', limit: 'return-share' },
  'pump-wire-drop-share': { side: 'at most', limit: 'voltage-drop' },
  'suction-margin': { side: 'at least', limit: 0 },
  'hood-gap': { side: 'at least', limit: 'hood-gap' },
  'charging-reserve': { side: 'at least', limit: 0 },
} satisfies Partial<Record<FigureId, HeldAgainst>>;
