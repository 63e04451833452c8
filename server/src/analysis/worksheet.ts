import type { Limits } from '../generated/build-sheet.ts';
import { type FieldSchema, schemaAt } from '../sheet/schema.ts';
import type { StageSheet } from '../sheet/stages.ts';
import { parseQuantity } from '../units/parse.ts';
import { isQuantity, type Quantity } from '../units/quantity.ts';
import type { Dimension } from '../units/units.ts';
import { type Absent, type Figure, type FigureId, isKnown, type Maybe, type Term } from './figure.ts';

/** Which value of a quantity with a tolerance to compute with. */
export type Pick = (quantity: Quantity) => number;

type Spec = {
  id: FigureId;
  symbol: string;
  name: string;
  dimension: Dimension;
  formula: string;
  source: string;
  home: readonly string[];
  notes?: readonly string[];
};

type Values<T extends readonly Maybe[]> = { [K in keyof T]: number };

/** Default of a field the sheet does not give, in SI, and why. */
type Otherwise = { value: number; because: string };

/** Takes the values of one stage and keeps the figures computed from them. */
export class Worksheet {
  readonly figures = new Map<FigureId, Figure>();
  readonly absent = new Map<FigureId, Absent & { name: string; home: readonly string[] }>();

  constructor(
    readonly stage: StageSheet,
    private readonly limits: readonly (Limits | undefined)[],
    private readonly pick: Pick,
  ) {}

  /** The quantity or number at a path of this stage's sheet; under `stages` for a field of the stage itself. */
  given(path: string, symbol: string, otherwise?: Otherwise): Maybe {
    const steps = path.split('.');
    const ofStage = steps[0] === 'stage';
    const schema = fieldSchema(path);
    const read = at(ofStage ? { stage: this.stage.stage } : this.stage.values, steps);
    const name = (schema?.title ?? steps.at(-1) ?? '').toLowerCase();
    const field = ofStage ? ['stages', this.stage.index, ...steps.slice(1)] : this.stage.place(steps);
    const dimension = schema?.dimension ?? 'ratio-number';
    if (typeof read === 'number') return { symbol, name, value: read, dimension, field };
    if (isQuantityObject(read)) return { symbol, name, value: this.pick(read), dimension, field };
    if (!otherwise) return { needs: [path.replace('stage.', 'stages.')] };
    return { symbol, name, value: otherwise.value, dimension, field, assumed: otherwise.because };
  }

  /** A limit: the sheet's own, else the house's, else the default of the schema. */
  limit(name: keyof Limits & string): Term {
    const schema = fieldSchema(`limits.${name}`);
    const own = this.limits.map((limits) => limits?.[name]).find((limit) => limit !== undefined);
    const dimension = schema?.dimension ?? 'ratio-number';
    const term = { symbol: 'limit', name: (schema?.title ?? name).toLowerCase(), dimension, field: ['limits', name] };
    if (own !== undefined) return { ...term, value: typeof own === 'number' ? own : own.value };
    return { ...term, value: standardLimit(name), assumed: 'common practice, the house limit' };
  }

  /** A choice of the sheet, shown among a figure's inputs as a word. */
  choice(path: string, symbol: string, word: string, assumed?: string): Term {
    const steps = path.split('.');
    const ofStage = steps[0] === 'stage';
    const schema = fieldSchema(path);
    const field = ofStage ? ['stages', this.stage.index, ...steps.slice(1)] : this.stage.place(steps);
    const name = (schema?.title ?? '').toLowerCase();
    return { symbol, name, value: 0, dimension: 'ratio-number', text: word, field, ...(assumed && { assumed }) };
  }

  /** The quantity's value at the corner of its tolerance this worksheet computes. */
  read(quantity: Quantity): number {
    return this.pick(quantity);
  }

  /**
   * Computes a figure from its inputs and keeps it. A missing input makes it absent, and a `RangeError` of the physics
   * makes it impossible with that sentence; a value that is no finite number never becomes a figure.
   */
  figure<const T extends readonly Maybe[]>(
    spec: Spec,
    inputs: T,
    compute: (...values: Values<T>) => number,
  ): Maybe<Figure> {
    const known: Term[] = [];
    for (const input of inputs) if (isKnown(input)) known.push(input);
    if (known.length < inputs.length) return this.miss(spec, inputs);
    const { id, symbol, name, dimension, formula, source, home, notes = [] } = spec;
    try {
      const value = compute(...(known.map((input) => input.value) as Values<T>));
      if (!Number.isFinite(value)) return this.impossible(spec, 'It has no finite value with these inputs.');
      const figure = { id, symbol, name, value, dimension, formula, source, home, notes, inputs: known, figure: id };
      this.figures.set(id, figure);
      this.absent.delete(id);
      return figure;
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      return this.impossible(spec, error.message);
    }
  }

  private miss({ id, name, home }: Spec, inputs: readonly Maybe[]): Absent {
    const gone = inputs.filter((input): input is Absent => !isKnown(input));
    const impossible = gone.find((input) => input.impossible)?.impossible;
    const absent = { needs: [...new Set(gone.flatMap(({ needs }) => needs))], ...(impossible && { impossible }) };
    this.absent.set(id, { ...absent, name, home });
    return absent;
  }

  private impossible({ id, name, home }: Spec, message: string): Absent {
    const absent = { needs: [], impossible: message };
    this.absent.set(id, { ...absent, name, home });
    return absent;
  }
}

const schemas = new Map<string, FieldSchema | undefined>();

/** The schema of a field as `given` names it; looked up once. */
function fieldSchema(path: string): FieldSchema | undefined {
  const known = schemas.get(path);
  if (known) return known;
  const steps = path.split('.');
  const found = schemaAt(steps[0] === 'stage' ? ['stages', 0, ...steps.slice(1)] : steps);
  schemas.set(path, found);
  return found;
}

const standards = new Map<string, number>();

/** The schema's default of a limit, in SI. */
function standardLimit(name: string): number {
  const known = standards.get(name);
  if (known !== undefined) return known;
  const schema = fieldSchema(`limits.${name}`);
  const read = schema?.dimension ? parseQuantity(String(schema.default), schema.dimension) : undefined;
  const value = read && isQuantity(read) ? read.value : Number(schema?.default);
  standards.set(name, value);
  return value;
}

function at(values: unknown, steps: readonly string[]): unknown {
  let value = values;
  for (const step of steps) value = (value as Record<string, unknown> | undefined)?.[step];
  return value;
}

function isQuantityObject(value: unknown): value is Quantity {
  return typeof value === 'object' && value !== null && 'dimension' in value && 'value' in value;
}
