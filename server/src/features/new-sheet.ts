import { stringify } from 'yaml';
import { NEWEST_FORMAT } from '../sheet/format.ts';
import { child, type FieldSchema, resolve, root } from '../sheet/schema.ts';

/** Fields as they stand in a new sheet; nothing is not known yet. */
type Fields = { [name: string]: Fields | Fields[] | string | null };

/** A kind of build to begin a sheet with: what makes it that kind is written, all else is left empty. */
export type NewSheet = { kind: string; about: string; text: string };

type Kind = { about: string; vehicle?: Fields; fuel?: Fields; stages: Fields[]; also?: Fields };

const now: Fields = { name: 'now', power: null, induction: 'natural' };

const kinds: Record<string, Kind> = {
  street: { about: 'A street car, naturally aspirated.', vehicle: { use: 'street' }, stages: [now] },
  blower: {
    about: 'A street car that gets a roots blower later.',
    vehicle: { use: 'street' },
    stages: [now, { name: 'blower', power: null, induction: 'roots', boost: null }],
    also: { ignition: { 'retard-per-boost': null }, 'throttle-body': { 'boost-rated': null } },
  },
  'turbo-on-alcohol': {
    about: 'A turbo engine on E85, ethanol or methanol.',
    fuel: { 'ethanol-share': null },
    stages: [{ name: 'now', power: null, induction: 'turbo', boost: null, path: null }],
    also: {
      ignition: { 'retard-per-boost': null },
      'fuel-system': { feed: { material: null }, return: { material: null } },
      'throttle-body': { 'boost-rated': null },
    },
  },
  nitrous: {
    about: 'A street car that gets nitrous later.',
    vehicle: { use: 'street' },
    stages: [now, { name: 'nitrous', power: null, nitrous: { power: null, kind: null } }],
    also: { ignition: { 'nitrous-retard': null }, 'throttle-body': { 'nitrous-rated': null } },
  },
  'off-road': {
    about: 'A truck for rough ground and slopes.',
    vehicle: { use: 'off-road' },
    stages: [now],
    also: { 'fuel-system': { tank: { 'surge-control': null } } },
  },
};

/** The kinds of sheets that can be begun, by the words they are asked for with. */
export const kindNames = Object.keys(kinds);

/** The sections that say what was done and accepted; a new sheet has nothing of it. */
const LATER = ['limits', 'handover', 'silence', 'notes'];

let written: readonly NewSheet[] | undefined;

/** Every kind of new sheet. */
export function newSheets(): readonly NewSheet[] {
  written ??= everyKind();
  return written;
}

function everyKind(): NewSheet[] {
  return Object.entries(kinds).map(([kind, { about, vehicle = {}, fuel = {}, stages, also = {} }]) => {
    const sections = Object.keys(root.properties ?? {}).filter((name) => !LATER.includes(name) && name !== 'format');
    const empty = Object.fromEntries(sections.map((name) => [name, emptied(child(root, name) ?? {})]));
    const fields = merged(empty, merged({ vehicle, fuel }, also));
    const text = stringify({ format: NEWEST_FORMAT, ...fields, stages }, { nullStr: '', lineWidth: 0 });
    return { kind, about, text: text.replaceAll(/ +$/gm, '') };
  });
}

/** A section with the fields it begins with, all of them empty; any other field is empty itself. */
function emptied(schema: FieldSchema): Fields | null {
  const own = resolve(schema);
  if (!own.first?.length) return null;
  return Object.fromEntries(own.first.map((name) => [name, emptied(child(own, name) ?? {})]));
}

function merged(below: Fields, above: Fields): Fields {
  const both = { ...below };
  for (const [name, value] of Object.entries(above)) {
    const known = below[name];
    both[name] = isSection(known) && isSection(value) ? merged(known, value) : value;
  }
  return both;
}

function isSection(value: Fields[string] | undefined): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
