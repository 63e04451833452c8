import { demandVolume } from '../../analysis/operating-points.ts';
import type { StageRule } from '../../checking/rule.ts';
import { fullPowerTime, SHORTEST_STINT } from '../../remedies/tank-time.ts';

export const rule: StageRule = {
  id: 'fuel-supply/tank-too-small',
  title: 'The tank is too small for a car that is driven',
  severity: 'warning',
  why: 'All that the pump moves and the engine does not burn comes back warm. A few liters are heated through within minutes, begin to boil and starve the pump; and they surge away from the pickup in the first bend.',
  inspect: 'Read the capacity and its unit: gallons and liters are easily swapped.',
  remedy: 'Correct the figure, or fit a tank that lasts at full power for more than a few minutes.',
  source: 'mass balance; the time is common practice, from memory',
  check: ({ values, see, show }) => {
    const capacity = values['fuel-system']?.tank?.capacity;
    const demand = see(demandVolume);
    if (!capacity || !demand || values.vehicle?.use === 'drag-racing') return undefined;
    const lasts = fullPowerTime(capacity, demand);
    if (lasts >= SHORTEST_STINT) return undefined;
    return {
      at: 'fuel-system.tank.capacity',
      message: `${show(capacity)} lasts ${(lasts / 60).toFixed(1)} minutes at full power, where the engine burns ${show(demand)}; so little fuel heats through and surges away from the pickup.`,
      related: [{ at: 'stages.power', message: 'The power of this stage asks for it.' }],
      excess: SHORTEST_STINT - lasts,
    };
  },
};
