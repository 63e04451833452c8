import { winterVaporPressure } from '../../analysis/cold-start.ts';
import { field } from '../../analysis/node.ts';
import { below, type StageRule } from '../../checking/rule.ts';
import { e85ClassFor, e85ReidVaporPressures } from '../../engineering/reid-pressure.ts';
import { roundedUp } from '../../remedies/size.ts';

const statedColdest = field('site.coldest', 'T_cold');
const statedVaporPressure = field('fuel.vapor-pressure', 'RVP');

export const rule: StageRule = {
  id: 'fuel-supply/alcohol-out-of-season',
  title: 'Ethanol blend of summer on a cold morning',
  severity: 'warning',
  why: 'A cold engine on E85 starts on the light ends of the gasoline in it, and the classes of the standard give more of them the colder the season. Summer fuel in winter cranks long, floods and washes the oil off the cylinders.',
  inspect: 'Ask the station for the class or the vapor pressure; a tank filled in summer keeps its summer fuel.',
  remedy: 'Fill up with the fuel of the season before the frost, or heat the engine before the start.',
  source: 'ASTM D5798-15, read in the US DOE Alternative Fuels Data Center; temperatures of the classes from memory',
  check: ({ values, see, know, show }) => {
    const least = see(winterVaporPressure);
    if (!least) return undefined;
    const day = know(statedColdest);
    know(statedVaporPressure);
    const own = values.fuel?.['vapor-pressure'];
    const miss = below(own, least.value);
    if (!own || day === undefined || !miss) return undefined;
    const { low, high } = e85ReidVaporPressures[e85ClassFor(day)];
    const middle = roundedUp((low + high) / 2, own);
    return {
      at: 'fuel.vapor-pressure',
      message: `For mornings of ${show(values.site?.coldest)} this fuel is sold with a Reid vapor pressure of ${show(least)} and more; with ${own.text} a cold engine hardly starts.`,
      related: [{ at: 'site.coldest', message: 'So cold.' }],
      day: 'the coldest, lowest day',
      ...miss,
      repairs: [
        {
          title: `Use the class for the season, of about ${middle}, where it is sold`,
          set: { 'fuel.vapor-pressure': middle },
        },
      ],
    };
  },
};
