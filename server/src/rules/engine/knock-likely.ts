import { fullLoad, knockIndex } from '../../analysis/knock.ts';
import type { StageRule } from '../../checking/rule.ts';
import { knockCause, knockMessage, knockOf, knockRelated } from '../../remedies/knock.ts';
import { knockRepairs } from '../../remedies/knock-repairs.ts';

export const rule: StageRule = {
  id: 'engine/knock-likely',
  title: 'Knock likely at full load',
  severity: 'warning',
  why: 'Knock breaks pistons and head gaskets, often before it is heard. Compression, boost, heat, early spark, nitrous and poor fuel add up; the estimate counts them together against engines the trade knows to live: about 9.5 to 1 with iron heads, 10.5 with aluminum, on pump premium. Take it as a reason for a second look by an engine builder, never as proof that the engine is safe below it.',
  inspect:
    'Measure compression ratio from chamber, deck, gasket and piston, not from the box. Read the octane on the pump you will use on the road. Prove the timing pointer, then read full advance with a light. After a pull look at the plugs: specks on the porcelain are aluminum.',
  remedy:
    'Less timing, boost, nitrous or compression, a cooler charge, more octane; an engine builder says which this engine stands.',
  source:
    'knock integral of Livengood and Wu (1955) with the delay of Douaud and Eyzat, SAE 780080 (1978), from memory, over that of a reference engine; its 9.5 and 10.5 to 1 on 91 octane are common practice',
  cautions: ['knock'],
  check: (situation) => {
    const knock = knockOf(situation, knockIndex, fullLoad);
    if (!knock) return undefined;
    const at = knockCause(knock);
    return {
      at,
      message: `Knock is likely at full load: ${knockMessage(situation, knock)}.`,
      related: knockRelated(situation, at),
      ...knock.miss,
      repairs: knockRepairs(situation, knock),
    };
  },
};
