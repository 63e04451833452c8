import type { Draft, Repair, Situation, StageRule } from '../../checking/rule.ts';
import { above } from '../../checking/rule.ts';
import { type Circuit, circuitsOf, isWireTooThin, thickerWire } from '../../remedies/circuits.ts';

export const rule: StageRule = {
  id: 'electrical/voltage-drop',
  title: 'Wire loses too much voltage',
  severity: 'warning',
  capacity: true,
  why: 'A pump turns slower on less voltage. Its flow falls at full load, when the engine needs it most, and the mixture turns lean. What is lost in the wire heats it, next to a fuel tank.',
  inspect:
    'Pump running at working pressure: meter at its terminals and at the battery posts, at the same time. Subtract, and take off what relay, fuse and plugs lose.',
  remedy:
    'Run thicker wire both ways from the battery by a relay close to the load, or give each pump a circuit of its own.',
  source: "Ohm's law; wire by vehicle standards; the limit of 5 % for the wire alone is common practice",
  check: (situation) => circuitsOf(situation).flatMap((circuit) => drop(circuit, situation)),
};

function drop(circuit: Circuit, situation: Situation): Draft[] {
  const { see, limit, show, compare } = situation;
  const { figures, fields, noun, path, load } = circuit;
  const share = see(figures.dropShare);
  const most = limit('voltage-drop');
  const miss = above(share, most);
  if (!share || !miss || isWireTooThin(circuit, situation)) return [];
  const shown = compare(share, most);
  const way = fields.ground === 'chassis' ? '' : ' each way';
  return [
    {
      at: `${path}.wire`,
      message: `The wire to the ${noun} loses ${show(see(figures.wireDrop))}, ${shown.value} of the charging voltage and over the limit of ${shown.limit}: ${show(fields.wire)} is thin for ${show(see(figures.amps))} over ${show(fields.length)}${way}.`,
      related: [
        { at: `${path}.length`, message: 'Length of the run, one way.' },
        { at: load, message: `What the ${noun} draws.` },
      ],
      ...miss,
      repairs: [...thicker(circuit, situation), ...separate(circuit, situation)],
    },
  ];
}

function thicker(circuit: Circuit, situation: Situation): Repair[] {
  const wire = thickerWire(circuit, situation, circuit.fields.fuse?.value ?? 0);
  const title = `Run ${wire} wire to the ${circuit.noun}`;
  return wire ? [{ title, set: { [`${circuit.path}.wire`]: wire }, shows: circuit.figures.dropShare }] : [];
}

function separate(circuit: Circuit, { values }: Situation): Repair[] {
  const pumps = values['fuel-system']?.pump?.quantity ?? 1;
  const isShared = circuit.noun === 'pump' && values.electrical?.['pump-circuit']?.shared === true;
  if (!isShared || pumps < 2) return [];
  return [
    {
      title: 'Give each pump a circuit of its own',
      set: { 'electrical.pump-circuit.shared': false },
      shows: circuit.figures.dropShare,
    },
  ];
}
