import type { StageRule } from '../../checking/rule.ts';
import { fromLog, isLean, placeOfReading, readAgainst } from '../../remedies/measured.ts';

export const rule: StageRule = {
  id: 'measured/leaner-than-planned',
  title: 'Full load leaner than planned',
  severity: 'error',
  why: 'A mixture leaner than planned runs hotter and knocks sooner; at full load that breaks pistons in seconds. Most often the fuel pressure falls where the engine takes the most.',
  inspect:
    'No more full load until the cause is known. Read the fuel pressure at full load with a gauge in sight of a second person, then the volts at the pump; look for a leak ahead of the oxygen sensor, which reads lean.',
  remedy: 'Mend the fuel supply, or have full load set richer by someone with experience, and read again.',
  source: 'Heywood (1988), ch. 9; common practice',
  cautions: ['knock'],
  check: (situation) =>
    situation.readings.filter(isLean).map((one) => {
      const { read, computed } = readAgainst(situation, one);
      return {
        at: placeOfReading(one),
        message: `${read} was read at full load${fromLog(one)}, ${computed} is planned: too lean. No more full load until the cause is known; read the fuel pressure there first.`,
      };
    }),
};
