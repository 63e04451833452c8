import { above, below, type Draft, type StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

/** How far an idle-air valve stands open at a warm idle that is set well. Common practice, from memory. */
const LEAST = 0.03;
const MOST = 0.3;
const USUAL = '10 %';

const FAULTS: readonly Declared[] = [
  {
    field: 'throttle-linkage.idle-stop',
    is: 'on-bores',
    message: 'The plates rest on their bores and wear into them until they stick: set the stop screw.',
    repair: ['Set the stop screw on the warm engine', 'set-warm'],
  },
];

export const rule: StageRule = {
  id: 'throttle-body/idle-stop',
  title: 'Stop screw and idle-air valve not matched',
  severity: 'warning',
  why: 'The valve can only help where it has way left in both directions. Nearly shut at warm idle, it cannot hold the engine back, which then idles high; wide open, it cannot catch the engine when converter, fan and lights come on.',
  inspect:
    'Engine warm, no loads: read how far the computer holds the valve open. Look for air leaks before you touch the screw.',
  remedy:
    'Turn the stop screw in small steps, each time with a wait, until the valve stands near a tenth; then set the zero of the throttle-position sensor again.',
  source: 'common practice, from memory: 3 to 30 % open at warm idle',
  check: (situation) => {
    const valve = situation.values['throttle-linkage']?.['idle-valve'];
    const [over, under] = [valve && above(valve, MOST), valve && below(valve, LEAST)];
    const miss = over ?? under;
    const draft: Draft[] = miss
      ? [
          {
            at: 'throttle-linkage.idle-valve',
            message: `The idle-air valve stands ${situation.show(valve)} open at warm idle: ${over ? 'open the plates a little at the stop screw' : 'close the plates a little at the stop screw, and look for air leaks'} until it stands near ${USUAL}.`,
            ...miss,
            repairs: [
              {
                title: `Set the stop screw until the valve stands at ${USUAL}`,
                set: { 'throttle-linkage.idle-valve': USUAL },
              },
            ],
          },
        ]
      : [];
    return [...draft, ...declaredFaults(situation, FAULTS)];
  },
};
