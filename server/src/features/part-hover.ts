import { price } from '../report/fit-page.ts';
import { type Block, type Page, paragraph, type Span } from '../report/page.ts';
import { isFields, type Path, valueAt } from '../sheet/path.ts';
import type { Sheet } from '../sheet/read.ts';
import type { ShelfKit, ShelfPart } from '../sheet/shelf.ts';
import { echo } from '../text/echo.ts';
import { atAGlance } from './glance.ts';
import { shown } from './part-figures.ts';
import type { PartId } from './part-ids.ts';

/** What there is to read of a part or kit that a sheet names: what the catalog says, and what the sheet says instead. */
export function partPage({ parts }: Sheet, { id, list }: PartId, currency: string | undefined): Page | undefined {
  if (!parts) return undefined;
  const kit = list === 'kits' ? parts.shelf.kit(id) : undefined;
  if (kit) return kitPage(kit, currency);
  const part = parts.shelf.part(id);
  const taken = parts.taken.find((one) => one.id === id && one.kit === undefined);
  if (!part) return undefined;
  const own = taken && valueAt(parts.own, taken.section as Path);
  return atAGlance([...heading(part, currency), ...fieldRows(part, own)]);
}

function heading({ id, name, cost, stock, quoted, available, note }: ShelfPart, currency: string | undefined): Block[] {
  const told = [
    price(cost, currency) + (quoted ? ` of ${quoted}` : ''),
    ...(stock === undefined ? [] : [`${stock} in stock`]),
    ...(available ? [`from ${available} on`] : []),
  ];
  return [
    paragraph({ strong: echo(name ?? id) }, ' ', { code: id }),
    paragraph(`${told.join('; ')}.`),
    ...(note ? [paragraph(echo(note, 200))] : []),
  ];
}

function kitPage({ id, name, cost, kits, brings }: ShelfKit, currency: string | undefined): Page {
  const items = [
    ...Object.entries(brings).map(([slot, part]): Span[] => [`${slot}: `, { code: part }]),
    ...kits.map((inner): Span[] => ['kit ', { code: inner }]),
  ];
  return atAGlance([
    paragraph({ strong: echo(name ?? id) }, ' ', { code: id }),
    paragraph(cost === undefined ? 'Priced by its parts.' : `${price(cost, currency)}.`),
    { kind: 'list', items },
  ]);
}

/** The fields of a part, and beside them what the sheet says instead if it says something. */
function fieldRows({ fields }: ShelfPart, own: unknown): Block[] {
  const rows = rowsOf(fields, own);
  if (rows.length === 0) return [];
  const isPlain = rows.every(([, , here]) => here === '');
  if (isPlain) return [{ kind: 'table', head: ['field', 'catalog'], rows: rows.map((row) => row.slice(0, 2)) }];
  return [{ kind: 'table', head: ['field', 'catalog', 'here'], rows }];
}

function rowsOf(fields: object, own: unknown, at = ''): string[][] {
  return Object.entries(fields).flatMap(([name, value]) => {
    if (at === '' && (name === 'name' || name === 'cost')) return [];
    const said = isFields(own) ? own[name] : undefined;
    if (isFields(value)) return rowsOf(value, said, `${at}${name}.`);
    return [[`${at}${name}`, echo(shown(value) ?? ''), said === undefined ? '' : echo(shown(said) ?? '')]];
  });
}
