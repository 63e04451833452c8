import { above, type Draft, type StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

/** Longest stretch of line without a clip, m. Common practice, from memory: 18 in. */
const LONGEST = 0.4572;

const FAULTS: readonly Declared[] = [
  {
    field: 'fuel-system.routing.sleeves',
    is: false,
    message: 'A fuel line passes sheet metal without a grommet: put a grommet or a sleeve around it.',
    repair: ['Put a grommet or a sleeve around the line', true],
  },
  {
    field: 'fuel-system.routing.clear-of-moving',
    is: false,
    message: 'A fuel line touches something that moves or is sharp: move it, and look again over the whole travel.',
  },
  {
    field: 'fuel-system.routing.engine-flex',
    is: false,
    message:
      'Hard line goes from the body to the engine, which rocks, and breaks there: put a flexible piece between them.',
    repair: ['Put a flexible piece between body and engine', true],
  },
];

export const rule: StageRule = {
  id: 'fuel-supply/line-chafes',
  title: 'Fuel line can chafe through or break',
  severity: 'error',
  why: 'A line under injection pressure does not weep where it is worn, it sprays, and the pump goes on feeding the spray. Sheet metal, a driveshaft, a clip too few or an engine that rocks are what wears it.',
  inspect:
    'Car on a lift: suspension down and up, steering over, engine pushed over on its mounts; look for shiny spots and pull at each clip.',
  remedy:
    'Clips with a lining at short steps, grommets in every hole, flexible line where parts move against one another, and a hand of room to all that turns.',
  source: 'common practice, from memory: a clip every 18 in',
  check: (situation) => {
    const routing = situation.values['fuel-system']?.routing;
    const spacing = routing?.['support-spacing'];
    const miss = spacing && above(spacing, LONGEST);
    const most = situation.showValue(LONGEST, 'length');
    const draft: Draft[] = miss
      ? [
          {
            at: 'fuel-system.routing.support-spacing',
            message: `A fuel line hangs free over ${situation.compare(spacing, LONGEST).value}: clip it every ${most}.`,
            ...miss,
            repairs: [{ title: `Clip the line every ${most}`, set: { 'fuel-system.routing.support-spacing': most } }],
          },
        ]
      : [];
    return [...draft, ...declaredFaults(situation, FAULTS)];
  },
};
