import { feedPressure, linesOf, materialName, workingPressure } from '../line-class.ts';
import type { Draft, StageRule } from '../rule.ts';

export const rule: StageRule = {
  id: 'fuel-supply/hose-rating-unwritten',
  title: 'Not every hose of this kind stands the pressure',
  severity: 'warning',
  why: 'Hose of one standard is sold for quite different pressures, and only the print on it tells which. Read the working pressure off the hose that is on the car, write it down, and replace a hose that does not show it.',
  source: 'SAE J30 R14; printed working pressures of 50 to 100 psi, from memory',
  check: (situation) =>
    linesOf(situation.values).flatMap(({ name, line }): Draft[] => {
      const { values, show, showValue } = situation;
      const pressure = feedPressure(situation);
      if (name !== 'feed' || !line.material || line['pressure-rating'] || !pressure) return [];
      const { sure, best } = workingPressure(line.material);
      const most = pressure.high ?? pressure.value;
      if (most <= sure || most > best) return [];
      const like = values['fuel-system']?.regulator?.pressure;
      const printed = like && show({ ...like, value: best });
      const material = materialName[line.material];
      return [
        {
          at: `fuel-system.${name}.material`,
          message: `The pressure in the ${name} line reaches ${show(pressure)}, and ${material} is printed with ${showValue(sure, 'pressure')} to ${showValue(best, 'pressure')}; the sheet gives no \`pressure-rating\`.`,
          related: [{ at: 'fuel-system.regulator.pressure', message: 'The pressure that is held.' }],
          repairs: [
            ...(printed
              ? [
                  {
                    title: `Fit hose printed with ${printed} and write it down`,
                    set: { [`fuel-system.${name}.pressure-rating`]: printed },
                  },
                ]
              : []),
            {
              title: `Run the ${name} line in ${materialName.ptfe}`,
              set: { [`fuel-system.${name}.material`]: 'ptfe' },
            },
          ],
        },
      ];
    }),
};
