import type { StageRule } from '../../checking/rule.ts';
import type { Ignition } from '../../generated/build-sheet.ts';

export const rule: StageRule = {
  id: 'ignition/tach-signal-absent',
  title: 'Tach signal from where there is none',
  severity: 'error',
  why: 'Without a speed signal the computer thinks the engine stands still, gives no fuel and stops the pump. The wire must go to something that gives one pulse per spark.',
  inspect: 'Crank and watch the speed in the computer: zero means no signal.',
  remedy: 'Take the signal from something that gives one pulse for each spark.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    const why = ignition && whyAbsent(ignition);
    if (!why) return undefined;
    const source = ignition.driver === 'capacitive-discharge' ? 'box-output' : 'coil-negative';
    return {
      at: 'ignition.tach-signal',
      message: why,
      related: [{ at: 'ignition.trigger', message: 'The trigger.' }],
      repairs: [
        {
          title: source === 'box-output' ? 'Take it from the tach output of the box' : 'Take it from coil negative',
          set: { 'ignition.tach-signal': source },
        },
      ],
    };
  },
};

function whyAbsent({ trigger, 'tach-signal': signal }: Ignition): string | undefined {
  if (trigger !== 'inductive-distributor') return undefined;
  if (signal === 'pickup')
    return 'The speed signal is to come from the pickup, but a distributor with coil and module built in does not bring it out.';
  if (signal === 'computer')
    return 'The computer is to make the speed signal itself, but it has no pickup to make it from.';
  return undefined;
}
