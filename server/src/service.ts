import { type Checked, checkSheet } from './checking/checked.ts';
import { type Completion, completionsAt } from './features/completion.ts';
import { type Diagnosis, problemDiagnoses, sheetDiagnoses } from './features/diagnostics.ts';
import { type Fold, foldsOf } from './features/folding.ts';
import { houseFaultDiagnoses } from './features/house-faults.ts';
import { type Explanation, hoverAt } from './features/hover.ts';
import { linksOf, type RuleLink } from './features/links.ts';
import { allRepairs, type Choice, editsOf, type Offer, problemRepairs, repairsAt } from './features/repairs.ts';
import { type OutlineItem, outlineOf } from './features/symbols.ts';
import type { BuildSheet } from './generated/build-sheet.ts';
import { rules } from './generated/rules.ts';
import { validateSheet } from './generated/validate.js';
import type { TextEdit } from './sheet/problem.ts';
import { readText, type Sheet } from './sheet/read.ts';
import { houseRoot, root } from './sheet/schema.ts';
import type { Range } from './text/place.ts';
import type { Steps } from './text/steps.ts';
import { readHouse } from './workspace/house-file.ts';
import { type OpenText, Workspace } from './workspace/workspace.ts';

type Reading = { sheet: Sheet; checked?: { revision: number; checked: Checked } };

/**
 * What the product can do with the open texts of its workspace, as plain data and UTF-16 offsets. Each version of a text
 * is read once and checked once, when first asked for. A text that is not open gets nothing.
 */
export class Service {
  private readonly known = new Set<string>(rules.map(({ id }) => id));
  private readonly readings = new WeakMap<OpenText, Reading>();
  readonly workspace = new Workspace(this.known);

  /** Everything that is wrong with a text. */
  diagnose(uri: string): Diagnosis[] {
    const text = this.workspace.get(uri);
    if (!text) return [];
    if (text.kind === 'house') return problemDiagnoses(text.text, this.house(text).problems);
    const { faults } = this.workspace.houseFor(uri);
    return [...houseFaultDiagnoses(text.text, faults), ...sheetDiagnoses(uri, this.checked(text))];
  }

  /** What there is to read of the field at an offset. */
  explain(uri: string, offset: number): Explanation | undefined {
    const text = this.workspace.get(uri);
    if (!text) return undefined;
    if (text.kind === 'house') return hoverAt(this.house(text).root, offset, [], 'us');
    const { sheet, plan, house, accepted } = this.checked(text);
    return hoverAt(sheet.root, offset, plan, house.units ?? 'us', accepted);
  }

  /** What could be written at an offset. */
  complete(uri: string, offset: number): Completion | undefined {
    const text = this.workspace.get(uri);
    return text && completionsAt(text.text, offset, text.kind === 'house' ? houseRoot : root);
  }

  /** What would mend what is wrong in a stretch of text. */
  *repairs(uri: string, range: Range): Steps<Offer[]> {
    const text = this.workspace.get(uri);
    if (!text) return [];
    if (text.kind === 'house') return problemRepairs(text.text, this.house(text).problems, range);
    return yield* repairsAt(uri, this.checked(text), range);
  }

  /** The edits of a repair that was offered without them; none, if it does not hold. */
  *resolve(uri: string, choice: Choice): Steps<readonly TextEdit[]> {
    const text = this.workspace.get(uri);
    return text?.kind === 'sheet' ? yield* editsOf(this.checked(text), choice) : [];
  }

  /** What would mend everything that needs no choice, in one go. */
  repairsOfAll(uri: string): Offer[] {
    const text = this.workspace.get(uri);
    return text?.kind === 'sheet' ? allRepairs(this.checked(text)) : [];
  }

  /** Sections, fields and named items. */
  outline(uri: string): OutlineItem[] {
    const text = this.workspace.get(uri);
    return text ? outlineOf(text.text, this.sheet(text).root) : [];
  }

  /** What can be folded. */
  folds(uri: string): Fold[] {
    const text = this.workspace.get(uri);
    return text ? foldsOf(text.text, this.sheet(text).root) : [];
  }

  /** The rules a text names, as links to their pages. */
  links(uri: string): RuleLink[] {
    const text = this.workspace.get(uri);
    return text ? linksOf(this.sheet(text).root) : [];
  }

  private house(text: OpenText) {
    const file = this.workspace.houseAt(text.uri);
    return file && 'sheet' in file ? file.sheet : readHouse(text.text, this.known);
  }

  private sheet(text: OpenText): Pick<Sheet, 'root'> {
    return text.kind === 'house' ? this.house(text) : this.reading(text).sheet;
  }

  private reading(text: OpenText): Reading {
    const known = this.readings.get(text);
    if (known) return known;
    const reading = { sheet: readText<BuildSheet>(text.text, root, validateSheet) };
    this.readings.set(text, reading);
    return reading;
  }

  private checked(text: OpenText): Checked {
    const { revision } = this.workspace;
    const reading = this.reading(text);
    if (reading.checked?.revision !== revision) {
      reading.checked = { revision, checked: checkSheet(reading.sheet, this.workspace.houseFor(text.uri).house) };
    }
    return reading.checked.checked;
  }
}
