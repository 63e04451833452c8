import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'ignition/solid-core-wires',
  title: 'Solid-core plug wires',
  severity: 'warning',
  why: 'A solid core radiates every spark as radio noise, and the wires of sensors and computer pick it up. The computer sees false speed signals, drops out or resets.',
  inspect:
    'Ohmmeter over one plug wire: next to nothing is solid core; suppression wire has from hundreds to thousands of ohms.',
  remedy: 'Fit spiral-core suppression wires and resistor plugs, and keep them away from sensor wires.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (ignition?.['plug-wires'] !== 'solid-core') return undefined;
    return {
      at: 'ignition.plug-wires',
      message: 'Solid-core plug wires send radio noise into the computer.',
      repairs: [
        {
          title: 'Fit spiral-core suppression wires and resistor plugs',
          set: { 'ignition.plug-wires': 'suppression' },
        },
      ],
    };
  },
};
