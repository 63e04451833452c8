import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/spread-bore-leak',
  title: 'Adapter does not seal the spread-bore lip',
  severity: 'warning',
  why: 'The large rear openings of a spread-bore manifold reach past many adapter plates, and air leaks in there under the plates: a racing idle and a lean rear half. It is the most common vacuum leak of such a conversion.',
  inspect:
    'Lay the plate on the manifold: no edge of the large rear openings may show. At idle, a little water misted around the base changes the speed where it leaks.',
  remedy: 'A plate that covers the whole lip, flat, with the thick gasket its maker names.',
  source: 'common practice',
  check: ({ values }) => {
    const adapter = values.stack?.adapter;
    const manifold = values.engine?.intake?.flange ?? adapter?.from;
    const body = values['throttle-body']?.flange ?? adapter?.to;
    if (!adapter || manifold !== 'spread-bore' || !body || body === 'spread-bore') return undefined;
    const seals = adapter['seals-spread-bore'];
    if (seals) return undefined;
    return {
      at: 'stack.adapter.seals-spread-bore',
      message:
        seals === false
          ? 'The adapter does not cover the whole sealing lip of the spread-bore manifold.'
          : 'Nothing says that the adapter covers the whole sealing lip of the spread-bore manifold.',
      related: [
        {
          at: values.engine?.intake?.flange ? 'engine.intake.flange' : 'stack.adapter.from',
          message: 'The spread-bore manifold.',
        },
      ],
      repairs: [
        {
          title: 'Use a plate that covers the whole lip',
          set: { 'stack.adapter.seals-spread-bore': true },
        },
      ],
    };
  },
};
