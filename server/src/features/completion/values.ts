import { rules } from '../../generated/rules.ts';
import { FORMATS } from '../../sheet/format.ts';
import type { Shelf } from '../../sheet/shelf.ts';
import { slotAt } from '../../sheet/slots.ts';
import { tellingFigures } from '../part-figures.ts';
import type { Place } from './place.ts';
import type { Proposal } from './proposal.ts';
import { quantitiesFor } from './quantities.ts';

/** The choices of a field, or units for the number that is typed; nothing where the value is complete. */
export function valuesAt(place: Place, shelf?: Shelf): { proposals: Proposal[]; incomplete: boolean } {
  const { entry, written, rest } = place;
  if (entry.schema?.dimension) {
    return rest.trim() === '' ? quantitiesFor(written, entry.schema) : { proposals: [], incomplete: false };
  }
  const choices = shelf && isPartId(place) ? partsAt(place, shelf) : choicesOf(place);
  const isComplete = rest.trim() === '' && choices.some(({ label }) => label === written.trim());
  return { proposals: isComplete ? [] : choices, incomplete: false };
}

function isPartId({ entry: { path } }: Place): boolean {
  return (path.at(-1) === 'use' && slotAt(path.slice(0, -1)) !== undefined) || path.at(-2) === 'kits';
}

/** The parts of a kind, or the kits, each with its price and the figures that matter. */
function partsAt({ entry: { path } }: Place, shelf: Shelf): Proposal[] {
  const one = (label: string, detail: string, documentation: string): Proposal => ({
    label,
    kind: 'value',
    detail,
    documentation,
    insert: label,
  });
  if (path.at(-2) === 'kits') return shelf.ids('kits').map((id) => one(id, 'Kit', shelf.kit(id)?.name ?? ''));
  const slot = slotAt(path.slice(0, -1));
  const parts = slot ? shelf.ofKind(slot.kind) : [];
  return parts.map((part) => {
    const cost = part.cost === undefined ? [] : [part.cost.toFixed(2)];
    return one(part.id, [...tellingFigures(part), ...cost].join(', '), part.name ?? '');
  });
}

function choicesOf({ entry: { schema, path } }: Place): Proposal[] {
  const { title = '', description = '' } = schema ?? {};
  const choice = (label: string, kind: Proposal['kind'], detail = title, documentation = description): Proposal => ({
    label,
    kind,
    detail,
    documentation,
    insert: label,
  });
  if (schema?.enum) {
    return schema.enum.map((name, index) => choice(name, 'choice', title, schema.enumDescriptions?.[index]));
  }
  if (schema?.type === 'boolean') return ['true', 'false'].map((truth) => choice(truth, 'value'));
  if (path[0] === 'format') return FORMATS.map((version) => choice(String(version), 'value'));
  if (path[0] === 'silence' && path.at(-1) === 'rule') {
    return rules.map(({ id, title: rule, why }) => choice(id, 'value', rule, why));
  }
  return [];
}
