import { demandVolume } from '../../analysis/operating-points.ts';
import type { StageRule } from '../../checking/rule.ts';
import { fullPowerTime, SHORTEST_STINT } from '../../remedies/tank-time.ts';

/** Time at full power that a tank should last, s. Common practice, from memory: the length of a session or a climb. */
const SHORTEST = 20 * 60;

export const rule: StageRule = {
  id: 'fuel-supply/tank-empties-fast',
  title: 'The tank lasts only minutes at full power',
  severity: 'hint',
  why: 'Alcohol fuels and boost can double what an engine burns, and a tank that was ample before is empty within a session: fit a larger one or plan the stops. A nearly empty tank also surges sooner and warms faster from the fuel that returns.',
  inspect: 'Fuel gauge after one session at full load.',
  remedy: 'Plan the stops, or fit a larger tank.',
  source: 'mass balance; the time is common practice, from memory',
  check: ({ values, see, show }) => {
    const use = values.vehicle?.use;
    const capacity = values['fuel-system']?.tank?.capacity;
    const demand = see(demandVolume);
    if (!capacity || !demand || (use !== 'road-racing' && use !== 'off-road')) return undefined;
    const lasts = fullPowerTime(capacity, demand);
    if (lasts >= SHORTEST || lasts < SHORTEST_STINT) return undefined;
    return {
      at: 'fuel-system.tank.capacity',
      message: `At full power the engine burns ${show(demand)}: ${show(capacity)} lasts ${Math.round(lasts / 60)} minutes; ${SHORTEST / 60} minutes is a usual least.`,
      related: [{ at: 'vehicle.use', message: 'Full power for long is usual here.' }],
      excess: SHORTEST - lasts,
    };
  },
};
