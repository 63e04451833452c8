import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'vacuum/coolant-sensor-dry',
  title: 'Coolant sensor does not touch coolant',
  severity: 'warning',
  why: 'In metal or in a passage without coolant the sensor lags the engine and reads low. The computer keeps the mixture rich too long, and does not see an engine that overheats.',
  inspect:
    'Thermometer on the housing beside the sensor and the reading in the computer, from cold to warm: they should go up together.',
  remedy:
    'Move it to the intake or the head where coolant flows on the engine side of the thermostat, with sealant that keeps the ground.',
  source: 'common practice',
  check: ({ values }) => {
    if (values.sensors?.coolant?.placement !== 'dry') return undefined;
    return {
      at: 'sensors.coolant.placement',
      message: 'The coolant sensor sits where no coolant moves.',
      repairs: [{ title: 'Move it to a passage with moving coolant', set: { 'sensors.coolant.placement': 'wet' } }],
    };
  },
};
