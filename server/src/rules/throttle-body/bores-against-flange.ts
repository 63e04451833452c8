import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/bores-against-flange',
  title: 'Number of bores does not suit the flange',
  severity: 'warning',
  why: 'A two-bore flange carries two bores, the others four. One of the two entries is wrong, and airflow and fit are judged by them.',
  inspect: 'Count the bores and look at the bolt pattern.',
  remedy: 'Correct the entry that is wrong.',
  source: 'definition of the flanges',
  check: ({ values }) => {
    const { flange, bores } = values['throttle-body'] ?? {};
    const usual = flange === 'two-bore' ? 2 : 4;
    if (!flange || !bores?.quantity || bores.quantity === usual) return undefined;
    return {
      at: 'throttle-body.bores.quantity',
      message: `${bores.quantity === 1 ? 'One bore' : `${bores.quantity} bores`} on a ${flange} flange, which carries ${usual}.`,
      related: [{ at: 'throttle-body.flange', message: 'The flange.' }],
      repairs: [
        { title: `Count ${usual} bores`, set: { 'throttle-body.bores.quantity': usual } },
        ...(bores.quantity === 2 || bores.quantity === 4
          ? [
              {
                title: `Say that the flange is ${bores.quantity === 2 ? 'two-bore' : 'square-bore'}`,
                set: { 'throttle-body.flange': bores.quantity === 2 ? 'two-bore' : 'square-bore' },
              },
            ]
          : []),
      ],
    };
  },
};
