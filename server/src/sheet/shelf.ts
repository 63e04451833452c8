import type { Place } from '../text/place.ts';
import type { Quantity } from '../units/quantity.ts';
import type { PartKind } from './slots.ts';

/** A part of a catalog; as long as its text stays the same it stays the same object. */
export type ShelfPart = {
  id: string;
  kind: PartKind;
  name: string | undefined;
  /** The fields it stands for, with its name and cost where a section has them. */
  fields: Readonly<Record<string, unknown>>;
  cost: number | undefined;
  /** Whether one price buys a piece or a length, and how long either is. */
  sold: 'piece' | 'length';
  costPer: Quantity | undefined;
  stock: number | undefined;
  /** Days as `2026-03-02`. */
  quoted: string | undefined;
  available: string | undefined;
  note: string | undefined;
};

/** A kit of a catalog: other kits, and parts by the names of their slots. */
export type ShelfKit = {
  id: string;
  name: string | undefined;
  cost: number | undefined;
  kits: readonly string[];
  brings: Readonly<Record<string, string>>;
};

/** What the catalogs of a house hold. */
export type Shelf = {
  /** Whether the house names any catalog that is there. */
  readonly isEmpty: boolean;
  /** The day it is, as `2026-03-02`; without it no price is old. */
  readonly today: string | undefined;
  part(id: string): ShelfPart | undefined;
  kit(id: string): ShelfKit | undefined;
  /** Every part of a kind, in the order of the catalogs. */
  ofKind(kind: PartKind): readonly ShelfPart[];
  /** Every id of a part, or of a kit. */
  ids(list: 'parts' | 'kits'): readonly string[];
  /** Where an id is described; the field of a part at these steps, where it has it. */
  placeOf(id: string, steps?: readonly (string | number)[]): Place | undefined;
  /** Every place where an id is given. */
  placesOf(id: string): readonly Place[];
};

export const emptyShelf: Shelf = {
  isEmpty: true,
  today: undefined,
  part: () => undefined,
  kit: () => undefined,
  ofKind: () => [],
  ids: () => [],
  placeOf: () => undefined,
  placesOf: () => [],
};
