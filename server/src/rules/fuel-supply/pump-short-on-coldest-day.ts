import { requiredDeliveryColdest } from '../../analysis/coldest-day.ts';
import { pumpDelivery } from '../../analysis/supply.ts';
import type { StageRule } from '../../checking/rule.ts';
import { coldestDayInWords, coldPumpMiss, pumpForColdest, siteRelated } from '../../remedies/coldest-day.ts';

export const rule: StageRule = {
  id: 'fuel-supply/pump-short-on-coldest-day',
  title: 'The pump is short in cold, dense air',
  severity: 'error',
  capacity: true,
  why: 'Cold air near the sea is denser, so the same engine burns more. A pump that has its reserve in the air the power was measured in may not give what is burned there: the pressure falls at full power and the mixture goes lean, where lean breaks pistons.',
  inspect:
    'Rail gauge in sight of the driver, full load on a cold morning at the lowest place it is driven: the pressure must hold.',
  remedy: 'A pump for the densest air. If it never comes down there, write down how low it goes.',
  source:
    'air mass by the air term of SAE J1349 (1990), read in secondary copies; pump curve; no reserve is counted twice',
  cautions: ['knock'],
  check: (situation) => {
    const { see, show } = situation;
    const miss = coldPumpMiss(situation, 0);
    const [delivery, burned] = [see(pumpDelivery), see(requiredDeliveryColdest)];
    if (!miss || !delivery || !burned) return undefined;
    const { day, assumed } = coldestDayInWords(situation);
    return {
      at: 'fuel-system.pump',
      message: `${day} the engine burns ${show(burned)} at full power, and the pump gives ${show(delivery)}.${assumed}`,
      related: siteRelated(situation),
      day: 'the coldest, lowest day',
      ...miss,
      repairs: pumpForColdest(situation),
    };
  },
};
