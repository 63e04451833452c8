import { capital } from '../../analysis/figure-words.ts';
import type { StageRule } from '../../checking/rule.ts';
import type { VacuumReference } from '../../generated/build-sheet.ts';

type Consumer = NonNullable<VacuumReference['shared-with']>[number];

/** Everything whose flow or pulses reach the sensor; a regulator has a rule of its own. */
const names: Record<Exclude<Consumer, 'regulator'>, string> = {
  'brake-booster': 'the brake booster',
  pcv: 'the crankcase ventilation',
  transmission: 'the transmission modulator',
  distributor: 'the vacuum canister of the distributor',
};

export const rule: StageRule = {
  id: 'vacuum/shared-port',
  title: 'Manifold-pressure hose shares its port',
  severity: 'warning',
  why: 'What flows through the port changes the pressure in it: with each use of the brake, or all the time with crankcase gas, the computer sees a load that is not there. Oil mist from the crankcase also clogs the sensor.',
  inspect: 'Follow the hose to its port and count what else hangs there.',
  remedy: 'Give the sensor a port of its own into the plenum, with a short hose.',
  source: 'common practice',
  check: ({ values }) => {
    const shared = values['vacuum-reference']?.['shared-with'] ?? [];
    const others = shared.filter((one): one is keyof typeof names => one !== 'regulator');
    if (others.length === 0) return undefined;
    const left = shared.filter((one) => one === 'regulator');
    return {
      at: 'vacuum-reference.shared-with',
      message: `${capital(listed(others.map((one) => names[one])))} ${others.length > 1 ? 'are' : 'is'} on the port of the manifold-pressure hose.`,
      repairs: [
        {
          title: 'Give the hose a port of its own',
          ...(left.length
            ? { set: { 'vacuum-reference.shared-with': left } }
            : { remove: ['vacuum-reference.shared-with'] }),
        },
      ],
    };
  },
};

function listed(words: string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
