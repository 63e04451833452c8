import { liftPumpDelivery, liftPumpMargin } from '../../analysis/lift-pump.ts';
import { requiredDelivery } from '../../analysis/supply.ts';
import { below, type StageRule } from '../../checking/rule.ts';
import { nextPump } from '../../remedies/pump-sizes.ts';

export const rule: StageRule = {
  id: 'fuel-supply/lift-pump-short',
  title: 'The lift pump cannot keep the surge tank full',
  severity: 'error',
  capacity: true,
  why: 'At full power the engine burns out of the surge tank, and only what the lift pump brings counts. A liter or two is gone in a minute; then the high-pressure pump sucks air, the engine goes lean at full load and the pump does not last.',
  inspect:
    'Lift pump running into a safety can through its own line, engine off, outdoors, for a minute: liters a minute times 60 are liters an hour.',
  remedy: 'Fit a larger lift pump, with strainer and line to suit, and lead the overflow of the surge tank back.',
  source: 'continuity; the reserve of 20 % is common practice',
  cautions: ['used-tank', 'knock'],
  check: ({ values, see, limit, showValue, compare }) => {
    const miss = below(see(liftPumpMargin), 0);
    const [delivery, required] = [see(liftPumpDelivery), see(requiredDelivery)];
    const flow = values['fuel-system']?.['lift-pump']?.flow;
    if (!miss || !delivery || !required || !flow) return undefined;
    const wanted = ((required.high ?? required.value) * flow.value) / (delivery.low ?? delivery.value);
    const shown = compare(delivery, required.value);
    const size = nextPump(wanted, flow)?.text;
    return {
      at: 'fuel-system.lift-pump.flow',
      message: `The lift pump brings ${shown.value}, but the engine needs ${shown.limit} with the reserve of ${showValue(limit('pump-reserve'), 'ratio')}.`,
      related: [{ at: 'stages.power', message: 'The power of this stage asks for the flow.' }],
      ...miss,
      repairs: size
        ? [
            {
              title: `Fit a lift pump of ${size}`,
              set: { 'fuel-system.lift-pump.flow': size },
              shows: liftPumpMargin,
            },
          ]
        : [],
    };
  },
};
