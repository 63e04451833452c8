import type { StageRule } from '../../checking/rule.ts';
import { fromLog, placeOfReading } from '../../remedies/measured.ts';

export const rule: StageRule = {
  id: 'measured/duty-over-limit',
  title: 'Injectors read beyond their duty limit',
  severity: 'warning',
  why: 'Near 100 % an injector does not close any more between pulses, and the mixture goes lean where the engine takes the most. The reading counts, whatever was computed.',
  inspect: 'Look up at which speed and load it was read, and the fuel pressure there.',
  remedy:
    'Larger injectors, or more pressure where pump, hoses and injectors stand it; until then keep below that speed.',
  source: 'common practice, the duty limit of the house',
  cautions: ['knock'],
  check: ({ readings, limit, compare }) =>
    readings.flatMap((one) => {
      const { about, read } = one;
      const most = limit('largest-duty');
      if (about.field !== 'duty' || read.value <= most) return [];
      const text = compare({ value: read.value, dimension: read.dimension, unit: read.unit }, most);
      return [
        {
          at: placeOfReading(one),
          message: `A duty cycle of ${text.value} was read${fromLog(one)}; the limit is ${text.limit}.`,
        },
      ];
    }),
};
