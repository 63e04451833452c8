import { coilHeat, steadyCoilCurrent } from '../../analysis/ignition.ts';
import { above, type StageRule } from '../../checking/rule.ts';
import { lastingHeat } from '../../engineering/coil.ts';
import { isChargedByBattery } from '../../remedies/coil-charge.ts';

export const rule: StageRule = {
  id: 'ignition/coil-burns',
  title: 'Nothing limits the current of the coil',
  severity: 'warning',
  why: 'With the key on and the engine still the coil charges until its resistance alone holds the current. A modern coil has so little of it that coil, driver and wire burn within a minute; an oil-filled coil bursts.',
  inspect:
    'Key on, engine still, clamp meter on the coil wire: the current must stay low or fall off within a second or two.',
  remedy: 'A driver that limits current and charging time, or the coil and the ballast that the driver was made for.',
  source: "Ohm's and Joule's laws; 70 W is common practice",
  check: (situation) => {
    const { values, see, show } = situation;
    const heat = see(coilHeat);
    const miss = above(heat, lastingHeat.value);
    if (!miss || !isChargedByBattery(situation) || values.ignition?.['current-limiting'] !== false) return undefined;
    return {
      at: 'ignition.current-limiting',
      message: `Nothing limits the coil: with the key on and the engine still it runs to ${show(see(steadyCoilCurrent))} and ${show(heat)} of heat.`,
      related: [{ at: 'ignition.coil.resistance', message: 'All that holds the current.' }],
      ...miss,
      repairs: [
        {
          title: 'Fit a driver that limits current and charging time',
          set: { 'ignition.current-limiting': true },
        },
      ],
    };
  },
};
