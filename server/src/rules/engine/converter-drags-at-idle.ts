import { converterIdleDrag } from '../../analysis/transmission.ts';
import type { StageRule } from '../../checking/rule.ts';

/** Idle speed over stall speed up to which an engine idles in gear without trouble. Common practice, from memory. */
const MOST = 0.5;

export const rule: StageRule = {
  id: 'engine/converter-drags-at-idle',
  title: 'Converter holds the engine at idle in gear',
  severity: 'warning',
  why: 'The torque a converter takes grows with the square of engine speed. An idle close to its stall speed means that the car strains at the brakes and that the engine has to carry a real load at idle, with the pressure in the manifold of a car that drives. The idle-air valve then stands open all the time and stalls follow each shift into gear.',
  inspect:
    'Warm idle, brakes held, wheels chocked, nobody in front of the car: engine speed and manifold pressure in neutral and in gear.',
  remedy:
    'Fit a converter with a stall speed that goes with the cam, or bring the idle down as far as the cam lets it.',
  source: 'similarity law of hydrodynamic converters; half the stall speed is common practice, from memory',
  check: ({ values: { transmission, engine }, see, show, showValue }) => {
    const stall = transmission?.['stall-speed'];
    const idle = stall && engine?.idle;
    if (!stall || !idle || idle.value <= MOST * stall.value * (1 + 1e-9)) return undefined;
    const drag = see(converterIdleDrag);
    const size = showValue((Math.ceil((idle.value / MOST) * 0.6) * 100) / 60, 'rotational-speed');
    return {
      at: 'transmission.stall-speed',
      message: `At an idle of ${show(idle)} a converter that stalls at ${show(stall)} holds the engine hard${drag ? `: it takes some ${show(drag)} in gear` : ''}. Take one that stalls higher, or idle lower.`,
      excess: idle.value / stall.value - MOST,
      related: [{ at: 'engine.idle', message: 'The idle speed.' }],
      repairs: [
        {
          title: `Fit a converter that stalls at ${size} or more`,
          set: { 'transmission.stall-speed': size },
          shows: converterIdleDrag,
        },
      ],
    };
  },
};
