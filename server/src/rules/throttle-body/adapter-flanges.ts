import { hoodGap } from '../../analysis/stack.ts';
import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/adapter-flanges',
  title: 'Adapter does not fit what it joins',
  severity: 'error',
  why: 'An adapter has the flange of the manifold below and that of the throttle body above; with another it neither bolts up nor seals. It is a small part that stops the whole job on the day of mounting.',
  inspect: 'Lay the gasket of each side on the plate: bolt holes and openings must match all around.',
  remedy: 'Use the adapter that is made for this pair of flanges.',
  source: 'common practice',
  check: ({ values }) => {
    const adapter = values.stack?.adapter;
    const manifold = values.engine?.intake?.flange;
    const body = values['throttle-body']?.flange;
    if (!adapter || !manifold || !body) return undefined;
    const below = adapter.from !== undefined && adapter.from !== manifold;
    const above = adapter.to !== undefined && adapter.to !== body;
    if (!below && !above) return undefined;
    const isSwapped = adapter.from === body && adapter.to === manifold && manifold !== body;
    return {
      at: below ? 'stack.adapter.from' : 'stack.adapter.to',
      message: `The adapter goes from ${adapter.from ?? 'an unknown flange'} to ${adapter.to ?? 'an unknown flange'}, but it joins a ${manifold} manifold and a ${body} throttle body.`,
      related: [
        { at: 'engine.intake.flange', message: 'The manifold below.' },
        { at: 'throttle-body.flange', message: 'The throttle body above.' },
      ],
      repairs:
        manifold === body
          ? [{ title: 'Leave the adapter out: the flanges match', remove: ['stack.adapter'], shows: hoodGap }]
          : [
              {
                title: isSwapped ? 'Swap from and to' : `Use an adapter from ${manifold} to ${body}`,
                set: { 'stack.adapter.from': manifold, 'stack.adapter.to': body },
                safe: isSwapped,
              },
            ],
    };
  },
};
