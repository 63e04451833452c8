import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/two-bore-on-four-bore',
  title: 'Two-bore throttle body on a four-bore manifold',
  severity: 'information',
  why: 'Two bores over four openings leave the air to turn under the adapter, and the fuel does not follow it evenly: on a dual-plane manifold one bore feeds each half of the engine, and front and rear cylinders differ. The airflow is that of the two bores.',
  inspect: 'Look down the adapter: where does each bore feed?',
  remedy: 'A four-bore body on this manifold, or a manifold made for two bores.',
  source: 'common practice',
  check: ({ values }) => {
    const intake = values.engine?.intake;
    const isFourBore = intake?.flange && intake.flange !== 'two-bore';
    if (values['throttle-body']?.flange !== 'two-bore' || !isFourBore || !values.stack?.adapter) return undefined;
    return {
      at: 'throttle-body.flange',
      message: `A two-bore throttle body feeds a ${intake.flange} manifold through an adapter${intake.manifold === 'dual-plane' ? ', one bore for each plane' : ''}.`,
      related: [
        { at: 'engine.intake.flange', message: 'The manifold.' },
        { at: 'stack.adapter', message: 'The adapter.' },
      ],
      repairs: [
        {
          title: `Choose a four-bore throttle body with a ${intake.flange} flange`,
          set: { 'throttle-body.flange': intake.flange ?? '', 'throttle-body.bores.quantity': 4 },
          remove: ['stack.adapter'],
        },
        {
          title: 'Choose a two-bore manifold',
          set: { 'engine.intake.manifold': 'two-bore-manifold', 'engine.intake.flange': 'two-bore' },
          remove: ['stack.adapter'],
        },
      ],
    };
  },
};
