import { uncapital } from '../../analysis/figure-words.ts';
import { injectorPressure } from '../../analysis/full-load-injection.ts';
import { pumpPressure, requiredDelivery } from '../../analysis/supply.ts';
import type { Repair, Situation, StageRule } from '../../checking/rule.ts';
import { largerPump } from '../../remedies/larger-pump.ts';

const REFERENCE = 'fuel-system.regulator.reference' as const;

export const rule: StageRule = {
  id: 'fuel-supply/regulator-not-referenced',
  title: 'Boost at the injectors that the regulator does not follow',
  severity: 'error',
  why: 'Blown through, the injectors spray against boost: every pound of it is lost to the pressure across them while the engine needs more fuel. A regulator referenced to the manifold raises the rail one to one with boost; without it the mixture leans out exactly where the engine knocks.',
  inspect:
    'Hose on the nipple of the regulator, its other end on the manifold below compressor and throttle plates. With air pump and gauge on that hose the rail must rise pound for pound; engine off.',
  remedy: 'Run a hose of its own from manifold to regulator, clamped at both ends; under boost it must not come off.',
  source: 'pressure balance at the injector; common practice',
  check: (situation) => {
    const { values, stage, path, see, impossible, show } = situation;
    const { pressure, reference } = values['fuel-system']?.regulator ?? {};
    const isOpen = reference === 'atmosphere' || (!reference && pressure !== undefined);
    if (path !== 'blow-through' || stage.boost?.value === 0 || !isOpen) return undefined;
    const across = see(injectorPressure);
    const nothing = impossible(injectorPressure) ? ': no fuel flows at full boost' : '';
    const left = across ? `: of the ${show(pressure)} it holds, ${show(across)} is left across the injectors` : nothing;
    const boost = stage.boost ? `boost of ${show(stage.boost)}` : 'boost';
    return {
      at: reference ? REFERENCE : 'fuel-system.regulator.pressure',
      message: `The injectors spray against ${boost}, but the regulator is ${reference ? 'open to' : 'taken to be open to'} the atmosphere${left}.`,
      related: stage.boost ? [{ at: 'stages.boost', message: 'The boost of this stage.' }] : [],
      excess: stage.boost?.value ?? 0,
      repairs: [
        {
          title: 'Reference the regulator to the manifold',
          set: { [REFERENCE]: 'manifold' },
          shows: injectorPressure,
        },
        ...withLargerPump(situation),
      ],
    };
  },
};

/** Where the pump cannot hold the pressure with boost on top of it. */
function withLargerPump(situation: Situation): Repair[] {
  const { see, stage } = situation;
  const [required, pressure] = [see(requiredDelivery), see(pumpPressure)];
  if (!required || !pressure || !stage.boost) return [];
  const need = { delivery: required, pressure: pressure.value + stage.boost.value };
  return largerPump(situation, need).map(({ title, set }) => ({
    title: `Reference the regulator to the manifold, and ${uncapital(title)}`,
    set: { ...set, [REFERENCE]: 'manifold' },
    shows: injectorPressure,
  }));
}
