import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'vacuum/intake-air-sensor',
  title: 'Intake-air temperature not measured, or in the wrong place',
  severity: 'warning',
  why: 'The computer works the mass of air out of pressure and temperature: 30 degrees not seen are a tenth of the fuel. Before a blower the sensor reads cool air while the engine breathes hot air, so that fuel and spark are set for an engine that is not there.',
  inspect: 'Find the sensor, and see whether the air it feels is the air that goes into the cylinders.',
  remedy:
    'Into the throttle body or the manifold, out of the heat of the crossover; with a blower after it and after the intercooler.',
  source: 'ideal gas law; places are common practice',
  check: ({ values, induction, path, stage }) => {
    const placement = values.sensors?.['intake-air']?.placement;
    if (placement === undefined) return undefined;
    const isPressed = induction !== 'natural';
    const isBefore = placement === 'air-cleaner' || (placement === 'throttle-body' && path === 'draw-through');
    if (placement !== 'none' && !(isPressed && isBefore)) return undefined;
    const to = isPressed ? (path === 'blow-through' ? 'charge-pipe' : 'manifold') : 'throttle-body';
    return {
      at: 'sensors.intake-air.placement',
      message:
        placement === 'none'
          ? 'The temperature of the intake air is not measured: fit a sensor in its way.'
          : 'The intake-air sensor sits before the blower and never sees the heat that it makes: move it behind.',
      ...(isPressed && stage.induction
        ? { related: [{ at: 'stages.induction', message: 'The blower of this stage.' }] }
        : {}),
      repairs: [
        {
          title:
            to === 'charge-pipe'
              ? 'Measure in the pipe to the throttle body'
              : to === 'manifold'
                ? 'Measure in the manifold'
                : 'Measure in the throttle body',
          set: { 'sensors.intake-air.placement': to },
        },
      ],
    };
  },
};
