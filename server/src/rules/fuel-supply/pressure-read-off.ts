import type { Draft, PlanRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

/** How far the pressure may be off the setting, as a share of it: gauge and regulator together. Common practice, from memory. */
const TOLERANCE = 0.05;

const FAULTS: readonly Declared[] = [
  {
    field: 'first-start.primed',
    is: false,
    message: 'The pump was not run before cranking: prime until the pressure stands, and look at every joint again.',
  },
];

export const rule: PlanRule = {
  id: 'fuel-supply/pressure-read-off',
  title: 'Fuel pressure not proved before the first start',
  severity: 'warning',
  why: 'All the fuel the computer meters stands on this pressure: 10 % off is 5 % of fuel everywhere. Read before the first start it also tells a pump that turns the wrong way, a crossed feed and return or a pinched line, while nothing is hot yet.',
  inspect: 'Gauge on the test port, pump running by its prime or a jumper at the relay, engine off; joints dry.',
  remedy:
    'Look for the cause first: hose on the regulator, voltage at the pump, crossed lines, a filter the wrong way round. Then set the regulator, and write down what the gauge shows.',
  source: 'orifice law for the share of fuel; 5 % is common practice, from memory',
  checkPlan: ([first]) => {
    if (!first?.values['first-start']) return undefined;
    const { values, show } = first;
    const read = values['first-start']?.['pressure-read'];
    const set = read && values['fuel-system']?.regulator?.pressure;
    const off = read && set ? read.value / set.value - 1 : 0;
    const draft: Draft = {
      at: 'first-start.pressure-read',
      message: `The gauge shows ${show(read)}, but the regulator is to hold ${show(set)}: find out why before the engine is started.`,
      excess: Math.abs(off),
      related: [{ at: 'fuel-system.regulator.pressure', message: 'What the regulator is to hold.' }],
      repairs: [
        {
          title: `Write down that the regulator holds ${show(read)}`,
          set: { 'fuel-system.regulator.pressure': read?.text ?? null },
        },
      ],
    };
    return [...(Math.abs(off) > TOLERANCE ? [draft] : []), ...declaredFaults(first, FAULTS)];
  },
};
