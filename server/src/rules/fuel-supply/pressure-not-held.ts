import { soakPressureNeeded } from '../../analysis/soak.ts';
import { above, type Draft, type StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';
import { coarselyUp } from '../../remedies/size.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'fuel-system.holding.check-valve',
    is: false,
    message: 'No check valve holds the pressure when the pump stops: fit one at the outlet of the pump.',
    repair: ['Fit a check valve at the outlet of the pump', true],
  },
  {
    field: 'fuel-system.holding.hot-start',
    is: 'long-crank',
    message:
      'The hot engine starts only after long cranking: find where the pressure goes, and keep heat from the line at the engine.',
  },
];

export const rule: StageRule = {
  id: 'fuel-supply/pressure-not-held',
  title: 'Fuel pressure lost with the engine off',
  severity: 'warning',
  why: 'After a hot stop the fuel at the throttle body goes on heating for a quarter of an hour. Only pressure keeps it liquid: where it leaks away through pump or regulator the line fills with vapor, and the engine cranks long, stumbles and floods. An injector that drips does the same, and fills a cylinder or the manifold with fuel.',
  inspect:
    'Gauge on the test port, pump stopped: read at once and after five minutes, first with the return pinched shut at its hose, then with the feed. What holds tells what leaks.',
  remedy:
    'A check valve in or at the pump, a regulator that closes, injectors that do not drip; a shield or a spacer for the line at the engine, and a prime of two seconds before a hot start.',
  source: 'vapor pressure as in the figure; 80 degC of soak is common practice, from memory',
  check: (situation) => {
    const held = situation.values['fuel-system']?.holding?.['held-pressure'];
    const needed = held && situation.see(soakPressureNeeded);
    const miss = held && needed && above(needed, held.value);
    const draft: Draft[] = [];
    if (miss) {
      const shown = situation.compare({ ...needed, dimension: 'pressure' }, held.value);
      const least = coarselyUp(needed.high ?? needed.value, held);
      draft.push({
        at: 'fuel-system.holding.held-pressure',
        message: `Five minutes after the pump stopped ${shown.limit} are left, but hot fuel needs ${shown.value} to stay liquid: find where the pressure goes.`,
        ...miss,
        repairs: [
          { title: `Mend the leak until ${least} are held`, set: { 'fuel-system.holding.held-pressure': least } },
        ],
      });
    }
    return [...draft, ...declaredFaults(situation, FAULTS)];
  },
};
