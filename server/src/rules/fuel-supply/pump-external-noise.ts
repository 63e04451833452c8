import type { StageRule } from '../../checking/rule.ts';
import { betterPlaces } from '../../remedies/pump-placement.ts';

export const rule: StageRule = {
  id: 'fuel-supply/pump-external-noise',
  title: 'An external pump is heard in the car',
  severity: 'hint',
  why: 'A high-pressure pump bolted to the frame hums through the whole body, and owners come back for it. In the tank the fuel swallows the noise and cools the pump; where it must stay outside, rubber mounts and a hose at either end help.',
  inspect: 'Key on, engine off, doors shut: what you hear now you hear on every drive.',
  remedy:
    'In the tank the fuel swallows the noise and cools the pump. Where it must stay outside, rubber mounts and a hose at either end help.',
  source: 'common practice',
  cautions: ['used-tank'],
  check: ({ values }) => {
    const use = values.vehicle?.use;
    if (values['fuel-system']?.pump?.placement !== 'external') return undefined;
    if (use !== 'street' && use !== 'show') return undefined;
    return {
      at: 'fuel-system.pump.placement',
      message: 'An external pump is heard in the car, and this one is driven on the street or shown.',
      related: [{ at: 'vehicle.use', message: 'The use of the car.' }],
      repairs: betterPlaces(values),
    };
  },
};
