import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'ignition/distributor-gear-wears',
  title: 'Gears of cam and distributor wear each other out',
  severity: 'error',
  why: 'A cast-iron gear on a steel cam is filed away within a few hundred miles. The timing wanders as it goes, the chips go through the oil, and at last distributor and oil pump stand still with the engine at speed.',
  inspect:
    'Pull the distributor and look at the teeth: sharp edges and glitter are wear. A magnet and the papers of the cam tell what its gear is.',
  remedy:
    'On a steel cam a gear of hardened steel that its maker allows, composite, or bronze as a wear part; look at the teeth again after the first hundred miles.',
  source: 'common practice; the maker of the cam names the gear',
  check: ({ values: { ignition } }) => {
    const [cam, distributor] = [ignition?.['cam-gear'], ignition?.['distributor-gear']];
    if (cam !== 'steel' || distributor !== 'cast-iron') return undefined;
    return {
      at: 'ignition.distributor-gear',
      message:
        'A cast-iron gear on a steel cam wears away within a few hundred miles: take one of hardened steel or composite that the maker of the cam allows.',
      related: [{ at: 'ignition.cam-gear', message: 'The gear of the cam is steel.' }],
      repairs: [
        { title: 'Take a gear of hardened steel', set: { 'ignition.distributor-gear': 'hardened-steel' } },
        { title: 'Take a composite gear', set: { 'ignition.distributor-gear': 'composite' } },
      ],
    };
  },
};
