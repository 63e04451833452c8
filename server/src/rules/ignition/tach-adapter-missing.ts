import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'ignition/tach-adapter-missing',
  title: 'No tach adapter behind a capacitive-discharge box',
  severity: 'information',
  why: 'A gauge made for coil negative reads wrong or not at all behind a capacitive-discharge box, and its high voltage can damage it. The gauge takes the tach output of the box, or an adapter.',
  inspect: 'See whether the gauge hangs on coil negative or on the tach output of the box.',
  remedy: 'Take the tach output, or fit the adapter the gauge asks for.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (ignition?.driver !== 'capacitive-discharge' || ignition['tach-adapter'] !== false) return undefined;
    return {
      at: 'ignition.tach-adapter',
      message: 'A capacitive-discharge box drives the coil, but the tachometer in the dash has no adapter.',
      related: [{ at: 'ignition.driver', message: 'The capacitive-discharge box.' }],
      repairs: [{ title: 'Fit a tach adapter', set: { 'ignition.tach-adapter': true } }],
    };
  },
};
