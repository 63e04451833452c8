import { readdirSync, readFileSync } from 'node:fs';
import { parse, parseDocument } from 'yaml';
import { findingsOf, type ProductFinding, questionsOf } from '../reference/product.ts';

/** How heavy a careful engineer takes it; a question is met by asking for the field and by anything said at it. */
export type Says = 'error' | 'warning' | 'information' | 'question';

/** A sound sheet with a single fault, and what a careful engineer would say. */
export type Fault = {
  id: string;
  /** The sound sheet it is made on. */
  on: string;
  /** Dotted paths and what is written there. */
  set?: Record<string, unknown>;
  remove?: string[];
  /** The least that must be said. */
  says: Says;
  /** Fields at which it may be said; what is under or over one counts too. */
  at: string[];
  /** Fields at which its consequences may be told besides. */
  also?: string[];
  /** What must not be said of it. */
  never?: 'error';
  why: string;
};

export type Outcome = {
  fault: Fault;
  told: boolean;
  wrong: readonly ProductFinding[];
  found: readonly ProductFinding[];
  /** Fields that are asked for, and were not on the sound sheet. */
  asked: readonly string[];
};

const SHEETS = new URL('../reference/sheets/', import.meta.url);
const FAULTS = new URL('faults/', import.meta.url);
const WEIGHT: Readonly<Record<string, number>> = { question: 0, hint: 0, information: 1, warning: 2, error: 3 };

/** Sheets with nothing wrong: of many kinds, each complete. */
export const soundSheets = [
  'alder-street-dry',
  'alder-street-wet',
  'brook-lane-runabout',
  'cane-field-wagon',
  'cinder-track-turbo',
  'dune-runner',
  'fallow-below-referenced',
  'foundry-six-metric',
  'harbor-launch',
  'high-plain-roots',
  'loft-pair',
  'mill-lane-turbo',
  'quarter-mile-methanol',
  'quayside-centrifugal',
  'reed-twin',
  'ridge-crawler',
  'slate-pass-six',
  'still-house-four',
  'tannery-draw-through',
  'timber-tow',
];

export const faults: readonly Fault[] = readdirSync(FAULTS).flatMap((file) =>
  parse(readFileSync(new URL(file, FAULTS), 'utf8')),
);

export function soundText(name: string): string {
  return readFileSync(new URL(`${name}.build.yaml`, SHEETS), 'utf8');
}

/** The text of a sound sheet with the fault in it. */
export function faultyText({ on, set = {}, remove = [] }: Fault): string {
  const document = parseDocument(soundText(on));
  for (const [path, value] of Object.entries(set)) document.setIn(stepsOf(path), document.createNode(value));
  for (const path of remove) {
    if (!document.deleteIn(stepsOf(path))) throw new Error(`There is no ${path} in ${on}.`);
  }
  return document.toString({ lineWidth: 0 });
}

function stepsOf(path: string): (string | number)[] {
  return path.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step));
}

/** What the product says of a fault, held against what a careful engineer would say. */
export function judge(fault: Fault): Outcome {
  const before = saidOfSound(fault.on);
  const text = faultyText(fault);
  const found = findingsOf(text).filter(({ rule, field }) => !before.said.has(`${rule} ${field}`));
  const here = found.filter(({ field }) => fault.at.some((place) => touches(place, fieldOf(field))));
  const asked = questionsOf(text).filter((field) => !before.asked.has(field));
  const isAsked = asked.some((field) => fault.at.some((place) => touches(place, fieldOf(field))));
  return {
    fault,
    found,
    asked,
    told: here.some(({ severity }) => weight(severity) >= weight(fault.says)) || (fault.says === 'question' && isAsked),
    wrong: found.filter((finding) => isWrong(fault, finding, here.includes(finding))),
  };
}

type Sound = { said: ReadonlySet<string>; asked: ReadonlySet<string> };

const ofSound = new Map<string, Sound>();

/** Rules and fields that are named for the sound sheet itself, and fields that it is asked for. */
function saidOfSound(sheet: string): Sound {
  const known = ofSound.get(sheet);
  if (known) return known;
  const text = soundText(sheet);
  const said = new Set(findingsOf(text).map(({ rule, field }) => `${rule} ${field}`));
  const sound = { said, asked: new Set(questionsOf(text)) };
  ofSound.set(sheet, sound);
  return sound;
}

/** A warning or an error where there is no fault, or heavier than may be. */
function isWrong({ also = [], never }: Fault, { field, severity }: ProductFinding, isHere: boolean): boolean {
  if (isHere) return severity === never;
  if (weight(severity) < weight('warning')) return false;
  return !also.some((place) => touches(place, fieldOf(field)));
}

function weight(severity: string): number {
  return WEIGHT[severity] ?? 0;
}

/** A field without the number of its stage and without the stage that changes it. */
function fieldOf(path: string): string {
  return path.replace(/^stages\.\d+\.changes\./, '').replace(/^stages\.\d+/, 'stages');
}

/** Whether one field is the other, lies under it or over it. */
function touches(place: string, field: string): boolean {
  return place === field || field.startsWith(`${place}.`) || (field !== '' && place.startsWith(`${field}.`));
}
