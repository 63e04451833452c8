import type { Repair, Situation, StageRule } from '../../checking/rule.ts';
import type { Coil, Ignition } from '../../generated/build-sheet.ts';
import { dischargeBox } from '../../remedies/discharge-box.ts';

type Kind = NonNullable<Coil['made-for']>;

/** Usual primary resistances, ohm, by the driver: electronic inductive drivers and capacitive-discharge boxes. Common practice, from memory. */
const USUAL: Record<Kind, { from: number; to: number }> = {
  inductive: { from: 0.3, to: 1.6 },
  'capacitive-discharge': { from: 0.05, to: 1 },
};

/** A usual coil of each kind, to write in where the figures of the present one go. Common practice, from memory. */
const TYPICAL: Record<Kind, Record<string, string>> = {
  inductive: { resistance: '0.6 ohm', inductance: '4 mH', 'working-current': '5 A' },
  'capacitive-discharge': { resistance: '0.2 ohm', inductance: '1.5 mH' },
};

const names: Record<Kind, string> = {
  inductive: 'an inductive driver',
  'capacitive-discharge': 'a capacitive-discharge box',
};

export const rule: StageRule = {
  id: 'ignition/coil-mismatch',
  title: 'Coil does not suit its driver',
  severity: 'warning',
  why: 'Too low a resistance draws more current than an inductive driver or the coil survives; too high a one never charges in time. A coil for a capacitive-discharge box stores too little to be charged, and one made to be charged burns only a short, weak spark on a box.',
  inspect: 'Ohmmeter across the primary, wires off, coil cold. The label or the maker tells which driver it is for.',
  remedy: 'Fit the coil that the maker of the driver names.',
  source: 'common practice, from memory',
  check: (situation) => {
    const { ignition } = situation.values;
    const kind = ignition && kindOf(ignition);
    const coil = ignition?.coil;
    if (!kind || !coil) return undefined;
    const isForOther = coil['made-for'] !== undefined && coil['made-for'] !== kind;
    const { from, to } = USUAL[kind];
    const ohms = coil.resistance?.value;
    const isLow = ohms !== undefined && ohms < from;
    const isHigh = ohms !== undefined && ohms > to;
    if (!isForOther && !isLow && !isHigh) return undefined;
    return {
      at: isForOther ? 'ignition.coil.made-for' : 'ignition.coil.resistance',
      message: isForOther
        ? `The coil is made for ${names[kind === 'inductive' ? 'capacitive-discharge' : 'inductive']}, but ${names[kind]} drives it.`
        : `A primary of ${situation.show(coil.resistance)} is ${isLow ? 'low' : 'high'} for ${names[kind]}; ${situation.showValue(from, 'resistance')} to ${situation.showValue(to, 'resistance')} is usual.`,
      related: [{ at: 'ignition.driver', message: 'The driver.' }],
      repairs: [otherCoil(coil, kind), ...(isForOther ? otherDriver(situation, kind) : [])],
    };
  },
};

function kindOf({ driver }: Ignition): Kind | undefined {
  if (driver === 'capacitive-discharge') return driver;
  return driver === undefined || driver === 'none' ? undefined : 'inductive';
}

/** A usual coil in place of the present one; what is said of the present one no longer holds. */
function otherCoil(coil: Coil, kind: Kind): Repair {
  const typical = TYPICAL[kind];
  const given = Object.keys(coil).filter((field) => field in typical);
  const words = given.map((field) => typical[field]).join(', ');
  const isStale = coil['working-current'] && !('working-current' in typical);
  return {
    title: `Fit a coil made for ${names[kind]}${words ? `, such as ${words}` : ''}`,
    set: {
      'ignition.coil.made-for': kind,
      ...Object.fromEntries(given.map((field) => [`ignition.coil.${field}`, typical[field] as string])),
    },
    remove: isStale ? ['ignition.coil.working-current'] : [],
  };
}

function otherDriver({ values: { ignition } }: Situation, kind: Kind): Repair[] {
  if (kind === 'capacitive-discharge') {
    return [{ title: 'Drive it with an inductive module', set: { 'ignition.driver': 'module' } }];
  }
  return [
    {
      title: 'Drive it with a capacitive-discharge box',
      set: dischargeBox(ignition),
    },
  ];
}
