import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/individual-runner',
  title: 'Manifold without a shared plenum',
  severity: 'warning',
  why: 'Each runner breathes for itself: its vacuum beats with one cylinder and gives no steady signal for a computer that works from manifold pressure, and fuel put into one bore reaches one cylinder only. Throttle-body injection counts on a shared plenum.',
  inspect: 'Look into the manifold: runners that never meet under the bores share no plenum.',
  remedy: 'A manifold with a plenum, or an injection made for single runners.',
  source: 'common practice',
  check: ({ values }) => {
    const engine = values.engine;
    const body = values['throttle-body'];
    if (engine?.intake?.manifold !== 'individual-runner' || !body) return undefined;
    const bores = body.bores?.quantity && (body.quantity ?? 1) * body.bores.quantity;
    const isShort = bores && engine.cylinders && bores < engine.cylinders;
    return {
      at: 'engine.intake.manifold',
      message: isShort
        ? `${bores} bores cannot feed ${engine.cylinders} cylinders through runners that share no plenum.`
        : 'The runners share no plenum, so the computer has no steady manifold pressure to work from.',
      related: [{ at: 'throttle-body', message: 'The throttle body.' }],
      repairs: [
        { title: 'Use a single-plane manifold', set: { 'engine.intake.manifold': 'single-plane' } },
        { title: 'Use a dual-plane manifold', set: { 'engine.intake.manifold': 'dual-plane' } },
      ],
    };
  },
};
