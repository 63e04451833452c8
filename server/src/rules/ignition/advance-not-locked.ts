import type { StageRule } from '../../checking/rule.ts';
import type { Ignition } from '../../generated/build-sheet.ts';
import { distributorTiming, isTimedByComputer } from '../../remedies/computer-timing.ts';

const names: Record<Exclude<Ignition['advance'], undefined | 'locked'>, string> = {
  mechanical: 'the mechanical advance',
  vacuum: 'the vacuum advance',
  'mechanical-and-vacuum': 'mechanical and vacuum advance',
};

export const rule: StageRule = {
  id: 'ignition/advance-not-locked',
  title: 'Computer timing with a distributor that still advances',
  severity: 'error',
  why: 'What the distributor adds comes on top of what the computer commands, and the computer does not know of it. The sum is far too early at speed, and that knocks and breaks pistons.',
  inspect:
    'Timing light on the damper, computer holding its timing fixed: rev the engine. A mark that moves is the distributor still advancing.',
  remedy: 'Lock the weights and the vacuum plate, set the rotor to its phase, and confirm with the light.',
  source: 'common practice',
  cautions: ['knock'],
  check: ({ values: { ignition } }) => {
    if (!isTimedByComputer(ignition) || ignition.trigger === 'inductive-distributor') return undefined;
    const { advance } = ignition;
    if (!advance || advance === 'locked') return undefined;
    return {
      at: 'ignition.advance',
      message: `The computer times the spark, but ${names[advance]} of the distributor can still move it.`,
      related: [{ at: 'ignition.timing', message: 'Timing by the computer.' }],
      repairs: [
        { title: 'Lock the advance and set the rotor to it', set: { 'ignition.advance': 'locked' } },
        distributorTiming(ignition),
      ],
    };
  },
};
