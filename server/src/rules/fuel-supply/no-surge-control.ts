import type { StageRule } from '../../checking/rule.ts';
import { externalFields } from '../../remedies/pump-placement.ts';

export const rule: StageRule = {
  id: 'fuel-supply/no-surge-control',
  title: 'Nothing keeps fuel at the pickup on slopes and in corners',
  severity: 'warning',
  why: 'A carburetor rides out a gulp of air with its float bowl; an injected engine has no bowl and cuts out at once, lean, in the middle of the corner or the climb. Baffles, a well around the pump or a surge tank hold enough for those seconds.',
  inspect:
    'Drive with a third of a tank in steady corners and on a grade, rail gauge in sight: a needle that dips shows the pickup bare.',
  remedy:
    'A well around the pump or a drop-in module first; baffles and foam help; a surge tank with its own feed where corners are long.',
  source: 'common practice',
  cautions: ['used-tank'],
  check: ({ values }) => {
    const use = values.vehicle?.use;
    const system = values['fuel-system'];
    const tank = system?.tank;
    if ((use !== 'off-road' && use !== 'road-racing') || !tank) return undefined;
    const placement = system.pump?.placement;
    if (placement === 'surge-tank' || placement === 'tank-module') return undefined;
    const control = tank['surge-control'];
    const isWritten = tank['return-port'] !== undefined && tank.vent !== undefined;
    if (control ? control !== 'none' : !isWritten) return undefined;
    return {
      at: control ? 'fuel-system.tank.surge-control' : 'fuel-system.tank',
      message: `${control ? 'Nothing in the tank keeps' : 'The sheet names nothing that keeps'} fuel at the pickup, and the vehicle is used for ${use === 'off-road' ? 'off-road driving' : 'road racing'}.`,
      related: [{ at: 'vehicle.use', message: 'The use of the vehicle.' }],
      repairs: [
        {
          title: 'Mount the pump in a well in the tank',
          set: { 'fuel-system.tank.surge-control': 'well', 'fuel-system.pump.placement': 'in-tank' },
          remove: externalFields(values),
        },
        {
          title: 'Feed the engine from a surge tank',
          set: {
            'fuel-system.tank.surge-control': 'surge-tank',
            'fuel-system.pump.placement': 'surge-tank',
            'fuel-system.pump.fed-by': 'lift-pump',
          },
          remove: externalFields(values),
        },
        { title: 'Baffle the tank', set: { 'fuel-system.tank.surge-control': 'baffle' } },
      ],
    };
  },
};
