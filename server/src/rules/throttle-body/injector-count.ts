import { injectorCount } from '../../analysis/injectors.ts';
import type { Draft, Repair, Situation, StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/injector-count',
  title: 'Number of injectors does not add up',
  severity: 'error',
  why: 'The computer counts its injectors and meters the fuel by their number: one too many or too few and every pulse is wrong. An uneven number feeds some bores, and so some cylinders, more than others.',
  inspect: 'Count the injectors and the injector plugs of the harness.',
  remedy: 'Make both agree: the injectors that are mounted and those the computer drives.',
  source: 'common practice; mass balance',
  check: (situation) => againstComputer(situation) ?? alternatingOdd(situation) ?? unevenBores(situation),
};

function againstComputer({ values, see }: Situation): Draft | undefined {
  const body = values['throttle-body'];
  const driven = body?.['computer-injectors'];
  const perBody = body?.injectors?.quantity;
  const count = see(injectorCount)?.value;
  if (!driven || !perBody || !count || driven === count) return undefined;
  const bodies = count / perBody;
  const mounted = driven / perBody;
  const otherCount: Repair[] =
    driven % bodies === 0
      ? [
          {
            title: `Count ${driven / bodies} injectors in each throttle body`,
            set: { 'throttle-body.injectors.quantity': driven / bodies },
          },
        ]
      : [];
  const otherBodies: Repair[] =
    driven % perBody === 0
      ? [
          {
            title: mounted === 1 ? 'Mount one throttle body' : `Mount ${mounted} throttle bodies`,
            set: {
              'throttle-body.quantity': mounted,
              ...(body['set-size'] && { 'throttle-body.set-size': mounted }),
            },
          },
        ]
      : [];
  return {
    at: 'throttle-body.injectors.quantity',
    message: `${bodies === 1 ? `The throttle body has ${count} injectors` : `${bodies} throttle bodies with ${perBody} injectors each have ${count} in all`}, but the computer drives ${driven}.`,
    related: [{ at: 'throttle-body.computer-injectors', message: 'What the computer drives.' }],
    excess: Math.abs(count - driven),
    repairs: [
      ...(driven < count ? [...otherCount, ...otherBodies] : [...otherBodies, ...otherCount]),
      {
        title: `Use a computer that drives ${count} injectors`,
        set: { 'throttle-body.computer-injectors': count },
      },
    ],
  };
}

function alternatingOdd({ values, see }: Situation): Draft | undefined {
  const count = see(injectorCount)?.value;
  if (values['throttle-body']?.injectors?.firing !== 'alternating' || !count || count % 2 === 0) return undefined;
  return {
    at: 'throttle-body.injectors.quantity',
    message: `${count === 1 ? 'One injector' : `${count} injectors`} cannot take turns in two equal halves.`,
    related: [{ at: 'throttle-body.injectors.firing', message: 'Two halves in turns.' }],
    repairs: [
      {
        title: 'Fire all injectors together, once every crank turn',
        set: { 'throttle-body.injectors.firing': 'twice-per-cycle' },
      },
    ],
  };
}

function unevenBores({ values }: Situation): Draft | undefined {
  const { bores, injectors } = values['throttle-body'] ?? {};
  const [holes, count] = [bores?.quantity, injectors?.quantity];
  if (!holes || !count || holes % count === 0 || count % holes === 0) return undefined;
  return {
    at: 'throttle-body.injectors.quantity',
    message: `${count} injectors cannot feed ${holes} bores evenly.`,
    related: [{ at: 'throttle-body.bores.quantity', message: 'The bores.' }],
    repairs: [{ title: 'Count one injector for each bore', set: { 'throttle-body.injectors.quantity': holes } }],
  };
}
