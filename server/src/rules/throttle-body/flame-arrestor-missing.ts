import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/flame-arrestor-missing',
  title: 'No flame arrestor on a boat',
  severity: 'error',
  why: 'Gasoline vapor lies in the bilge of a boat and cannot run off. One backfire through an open intake lights it. The law asks for an approved flame arrestor on every gasoline engine in a boat, and for marine parts that do not spark.',
  inspect:
    'Look for the approval mark on the arrestor, and that it is clamped tight on the throttle body with nothing bypassing it.',
  remedy:
    'An approved backfire flame arrestor that fits the throttle body and passes its air; pump, starter, alternator and ignition of the marine kind. Run the blower of the bilge before each start.',
  source: '46 CFR 25.35-1 and 33 CFR 183, from memory; the local authority decides',
  check: ({ values: { vehicle, stack } }) => {
    if (vehicle?.marine !== true || stack?.['flame-arrestor'] !== false) return undefined;
    return {
      at: 'stack.flame-arrestor',
      message: 'A boat must have an approved flame arrestor on its intake: fit one before the engine is started.',
      related: [{ at: 'vehicle.marine', message: 'It is a boat.' }],
      repairs: [{ title: 'Fit an approved flame arrestor', set: { 'stack.flame-arrestor': true } }],
    };
  },
};
