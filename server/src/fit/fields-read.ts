import type { StageAnalysis } from '../analysis/analysis.ts';
import { isLeaf } from '../analysis/node.ts';
import type { Source } from '../analysis/source.ts';
import type { Entry } from '../analysis/worksheet.ts';
import type { Asked } from '../checking/ask.ts';
import type { FieldPath } from '../sheet/path.ts';

/** Some of several fields or sections, a bit each in their order. */
export type Bits = number;

/** Which of some fields and sections answers and figures were worked out of, themselves or by way of others. */
export class FieldsRead {
  private readonly ofPath = new Map<string, Bits>();
  private readonly ofEntry = new WeakMap<Entry, Bits>();

  constructor(private readonly fields: readonly FieldPath[]) {}

  bitsOf(fields: readonly FieldPath[]): Bits {
    return this.fields.reduce((all, field, index) => (fields.includes(field) ? all | (1 << index) : all), 0);
  }

  /** The fields that the answers of a rule, one a stage or one for the whole plan, would change with. */
  byAnswers(answers: readonly Asked[], plan: readonly StageAnalysis[]): Bits {
    let bits = 0;
    for (const { watch, later } of answers) {
      watch.tell(
        (path) => {
          bits |= this.at(path);
        },
        (entry, stage) => {
          bits |= this.byEntry(entry, (plan[stage + later] as StageAnalysis).worksheet.source);
        },
      );
    }
    return bits;
  }

  /** The fields that an entry of a stage's worksheet was worked out of. */
  byEntry(entry: Entry, source: Source): Bits {
    let bits = this.ofEntry.get(entry);
    if (bits === undefined) {
      bits = isLeaf(entry.node) ? this.byReading(entry.node.raw, source) : 0;
      for (const used of entry.used) bits |= this.byEntry(used, source);
      this.ofEntry.set(entry, bits);
    }
    return bits;
  }

  private byReading(raw: (source: Source) => unknown, source: Source): Bits {
    let bits = 0;
    const look = (path: string) => {
      bits |= this.at(path);
    };
    raw({
      ...source,
      get stage() {
        look('stages');
        return source.stage;
      },
      read: (path) => {
        look(path);
        return source.read(path);
      },
    });
    return bits;
  }

  /** The fields that a field is in, or that are in a section. */
  private at(path: string): Bits {
    let bits = this.ofPath.get(path);
    if (bits === undefined) {
      const place = path.replace(/^stages\.changes(?:\.|$)/, '');
      bits = this.fields.reduce(
        (all, field, index) => (isWithin(place, field) || isWithin(field, place) ? all | (1 << index) : all),
        0,
      );
      this.ofPath.set(path, bits);
    }
    return bits;
  }
}

function isWithin(inner: string, outer: string): boolean {
  return inner === outer || outer === '' || inner.startsWith(`${outer}.`);
}
