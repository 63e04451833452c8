import { COLDEST_SHARE, requiredDeliveryColdest } from '../../analysis/coldest-day.ts';
import { pumpDelivery } from '../../analysis/supply.ts';
import type { StageRule } from '../../checking/rule.ts';
import { coldestDayInWords, coldPumpMiss, pumpForColdest, siteRelated } from '../../remedies/coldest-day.ts';

export const rule: StageRule = {
  id: 'fuel-supply/pump-tight-on-coldest-day',
  title: 'The pump is barely enough in cold, dense air',
  severity: 'warning',
  capacity: true,
  why: 'In the densest air it ever sees, the engine burns nearly all that the pump gives. A worn pump, a dirty filter or a few tenths of a volt less, and the pressure falls at full power.',
  inspect:
    'Rail gauge in sight of the driver, full load on a cold morning at the lowest place it is driven: the pressure must hold.',
  remedy: 'A somewhat larger pump, or write down how low and how cold it gets if the car never sees such a day.',
  source: 'air mass by the air term of SAE J1349 (1990), read in secondary copies; pump curve; 95 % is common practice',
  check: (situation) => {
    const { see, show } = situation;
    const miss = coldPumpMiss(situation, 1 / COLDEST_SHARE - 1);
    const [delivery, burned] = [see(pumpDelivery), see(requiredDeliveryColdest)];
    if (!miss || !delivery || !burned || coldPumpMiss(situation, 0)) return undefined;
    const { day, assumed } = coldestDayInWords(situation);
    return {
      at: 'fuel-system.pump',
      message: `${day} the engine burns ${show(burned)} at full power, nearly all of the ${show(delivery)} the pump gives.${assumed}`,
      related: siteRelated(situation),
      day: 'the coldest, lowest day',
      ...miss,
      repairs: pumpForColdest(situation),
    };
  },
};
