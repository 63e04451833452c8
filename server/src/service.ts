import type { Fault } from './checking/ask.ts';
import { type Checked, checkSheet } from './checking/checked.ts';
import type { OpenCheck } from './checking/finding.ts';
import type { Rule } from './checking/rule.ts';
import { type Acceptable, type Accepting, acceptableAt, acceptance } from './features/accept.ts';
import type { Action } from './features/actions/action.ts';
import { actionsAt } from './features/actions/actions.ts';
import { type Asking, ask, type NextQuestion, nextQuestion, type Reply, type Turn } from './features/ask.ts';
import { type Completion, completionsAt } from './features/completion.ts';
import { type Diagnosis, problemDiagnoses, sheetDiagnoses } from './features/diagnostics.ts';
import { type Extraction, extractionsAt } from './features/extract-part.ts';
import { fieldUses } from './features/field-uses.ts';
import { type FiguresPanel, figuresPanel } from './features/figures-panel.ts';
import { type Fold, foldsOf } from './features/folding.ts';
import { type Hint, hintsIn } from './features/hints.ts';
import { houseFaultDiagnoses } from './features/house-faults.ts';
import { type Explanation, hoverAt, type Known, nothingKnown } from './features/hover.ts';
import { linksOf, type RuleLink } from './features/links.ts';
import { changesAfter, definitionsAt, type Targets, type Use, usesAt } from './features/moving.ts';
import type { NamedText } from './features/names/name-kind.ts';
import { linkedAt, nameAt, type Renaming, renamed } from './features/names/names.ts';
import { neededAt } from './features/needs-here.ts';
import { newCatalogFor } from './features/new-catalog.ts';
import { type PanelDrawing, panelCurves, panelLadder } from './features/panel-drawings.ts';
import { type PickList, pickList, pickListOfAll, slotUnder } from './features/part-choice.ts';
import { partPage } from './features/part-hover.ts';
import { type PartId, partIdAt, partIdsIn } from './features/part-ids.ts';
import { type AskedQuestion, askedOf, NO_RANKS, ranksOf } from './features/questions.ts';
import { allRepairs, type Choice, editsOf, type Offer, problemRepairs, repairsAt } from './features/repairs.ts';
import { reportOf } from './features/report.ts';
import { selectionsAt } from './features/selection.ts';
import { type Starting, startingOf } from './features/starting.ts';
import { type OutlineItem, outlineOf } from './features/symbols.ts';
import { withQuestions } from './features/title-hover.ts';
import { problemsTold, type Told, toldOf } from './features/told.ts';
import { type Triable, triableFields } from './features/triable.ts';
import { type StageVerdicts, stageVerdictsOf, type Verdict, verdictOf } from './features/verdict.ts';
import { type Setting, setOtherwise, type Tried, triedWith } from './features/what-if.ts';
import { type Work, workAt } from './features/work.ts';
import { type NamedThing, namedParts, namedThings } from './features/workspace-symbols.ts';
import { choose } from './fit/choose.ts';
import { Choosing } from './fit/choosing.ts';
import { completed } from './fit/completed.ts';
import { type Fit, fitOf } from './fit/fit.ts';
import { type Headroom, headroomOf } from './fit/headroom.ts';
import { type Needs, needsOf } from './fit/needs.ts';
import { openSlots } from './fit/open-slots.ts';
import { chooseTogether } from './fit/together.ts';
import { costOfWaiting } from './fit/waiting.ts';
import { rules as allRules } from './generated/rules.ts';
import { comparisonOf } from './report/comparison.ts';
import type { NamedComparison } from './report/comparison-page.ts';
import type { Section } from './report/html.ts';
import { needLine } from './report/needs-page.ts';
import { figureLines } from './report/plain-lines.ts';
import { catalogReader, sheetReader, Texts } from './service/texts.ts';
import { Catalog } from './sheet/catalog.ts';
import { checkedCatalog } from './sheet/catalog-check.ts';
import { unitsIn } from './sheet/house.ts';
import { formatEdits } from './sheet/layout.ts';
import type { FieldPath } from './sheet/path.ts';
import type { TextEdit } from './sheet/problem.ts';
import type { Sheet } from './sheet/read.ts';
import { catalogRoot, houseRoot, root } from './sheet/schema.ts';
import { slotNamed, slots } from './sheet/slots.ts';
import type { Place, Range } from './text/place.ts';
import type { Steps } from './text/steps.ts';
import type { Units } from './units/format.ts';
import { readHouse } from './workspace/house-file.ts';
import { kindOf } from './workspace/kind.ts';
import type { HouseFault, Standing, Workspace } from './workspace/workspace.ts';

/** What there is to tell of a text that is not open. */
export type LookedInto = { diagnoses: Diagnosis[]; faults: readonly Fault[]; named: NamedThing[] };

/** The figures for a panel, and why other values cannot be tried, where they cannot. */
export type FiguresShown = FiguresPanel & { refusal?: string };

/** What figures are to be shown beside, and which topics are shut. */
export type FiguresAsked = { before?: string | undefined; settings?: readonly Setting[]; shut?: readonly string[] };

/**
 * What the product can do with the open texts of its workspace, as plain data and UTF-16 offsets. Each version of a text
 * is read once and checked once, when first asked for. A text that is not open gets nothing but what is wrong with it.
 */
export class Service {
  private readonly texts: Texts;
  private readonly known: ReadonlySet<string>;
  /** Reads and checks texts that are not open, each from the one before: those of a shop have much in common. */
  private unopened: { reader: ReturnType<typeof sheetReader>; checked?: Checked } = { reader: sheetReader() };
  readonly workspace: Workspace;

  constructor(private readonly rules: readonly Rule[] = allRules) {
    this.known = new Set(rules.map(({ id }) => id));
    this.texts = new Texts(rules, this.known);
    this.workspace = this.texts.workspace;
  }

  /** Forgets a text that is no longer open. */
  close(uri: string): void {
    this.texts.close(uri);
  }

  /** The rules and figures that failed by a fault of our own when a text was checked. */
  faults(uri: string): readonly Fault[] {
    return this.checkedAt(uri)?.faults ?? [];
  }

  /** The checks of a sheet that could not be made, with what they lacked. */
  openChecks(uri: string): readonly OpenCheck[] {
    return this.checkedAt(uri)?.open ?? [];
  }

  /** What to ask next about a sheet, weightiest first. */
  questions(uri: string): AskedQuestion[] {
    const checked = this.checkedAt(uri);
    return checked ? askedOf(checked) : [];
  }

  /**
   * What a sheet needs of its parts, of those fields that are `wanted`, with usual values where it says nothing; nothing for
   * what is no sheet.
   */
  *needs(uri: string, wanted?: (field: FieldPath) => boolean): Steps<(Needs & { units: Units }) | undefined> {
    const checked = this.checkedAt(uri);
    if (!checked) return undefined;
    return { ...(yield* needsOf(checked, this.rules, wanted)), units: unitsIn(checked.house) };
  }

  /** A sheet on paper, part by part; nothing for what is no sheet. */
  *report(uri: string): Steps<{ title: string; sections: Section[]; units: Units } | undefined> {
    const checked = this.checkedAt(uri);
    if (!checked) return undefined;
    const needs = yield* needsOf(checked, this.rules);
    const headroom = yield* headroomOf(checked, this.rules);
    const waiting = checked.house.shelf ? yield* costOfWaiting(checked, this.rules) : undefined;
    const sections = reportOf({ checked, needs, headroom, questions: askedOf(checked), waiting });
    return { title: checked.sheet.values.title ?? 'Build sheet', sections, units: unitsIn(checked.house) };
  }

  /**
   * What the change into a sheet does from another, open here or in a service of its own, or from an earlier text of it; nothing
   * where one is no sheet.
   */
  *compare(
    uri: string,
    before: string | { text: string },
    earlier: Service = this,
  ): Steps<NamedComparison | undefined> {
    const [text, now] = [this.workspace.get(uri), this.checkedAt(uri)];
    if (!text || !now) return undefined;
    const old = typeof before === 'string' ? earlier.checkedAt(before) : this.texts.earlier(text, before.text);
    if (!old) return undefined;
    return {
      ...(yield* comparisonOf(old, now, this.rules)),
      values: now.sheet.values,
      valuesBefore: old.sheet.values,
      units: unitsIn(now.house),
    };
  }

  /** What a sheet comes to with some fields set otherwise; nothing for what is no sheet. */
  *whatIf(uri: string, settings: readonly Setting[]): Steps<Tried | undefined> {
    const trial = this.trial(uri);
    return trial && (yield* triedWith(trial.checked, settings, trial.read, this.rules));
  }

  /** The edits that write what was tried; none where it does not hold. */
  whatIfEdits(uri: string, settings: readonly Setting[]): readonly TextEdit[] {
    const trial = this.trial(uri);
    const set = trial && setOtherwise(trial.checked, settings, trial.read, this.rules);
    return set && 'edits' in set ? set.edits : [];
  }

  /**
   * The figures of a sheet for a panel beside it, with those of an earlier text of it and of other values; of topics that are
   * `shut`, the heading alone.
   */
  figures(uri: string, { before, settings = [], shut }: FiguresAsked = {}): FiguresShown | undefined {
    const text = this.workspace.get(uri);
    const trial = this.trial(uri);
    if (!text || !trial) return undefined;
    const { checked, read } = trial;
    const was = before === undefined ? undefined : this.texts.earlier(text, before);
    const set = settings.length > 0 ? setOtherwise(checked, settings, read, this.rules) : undefined;
    const tried = set && 'checked' in set ? set.checked : undefined;
    const panel = figuresPanel(checked, { was, tried }, shut);
    return { ...panel, ...(set && 'refusal' in set && { refusal: set.refusal }) };
  }

  /** The report's curves of a sheet, with the way of the fuel. */
  curves(uri: string): PanelDrawing[] {
    const checked = this.checkedAt(uri);
    return checked ? panelCurves(checked) : [];
  }

  /** How far the parts of a sheet go, as the report draws it. */
  *ladder(uri: string): Steps<PanelDrawing[]> {
    const checked = this.checkedAt(uri);
    return checked ? panelLadder(checked, yield* headroomOf(checked, this.rules)) : [];
  }

  /** The fields of a sheet another value can be tried for. */
  triable(uri: string): Triable[] {
    const checked = this.checkedAt(uri);
    return checked ? triableFields(checked) : [];
  }

  /** Every figure of a sheet as a line of text. */
  figureLines(uri: string): string[] {
    const checked = this.checkedAt(uri);
    return checked ? figureLines(checked.plan, unitsIn(checked.house)) : [];
  }

  /** Parts of the catalogs for a slot of a sheet, by its name, or for every open one; nothing for what is no sheet. */
  *fit(uri: string, slot?: string): Steps<(Fit & { currency: string | undefined }) | undefined> {
    const checked = this.checkedAt(uri);
    if (!checked) return undefined;
    const fit = yield* fitOf(checked, this.rules, slot === undefined ? undefined : slotNamed(slot));
    return { ...fit, currency: checked.house.currency };
  }

  /** Parts to pick for the slot at an offset of a sheet, or for one by its name. */
  *pickParts(uri: string, at: number | string): Steps<PickList | undefined> {
    const trial = this.trial(uri);
    if (!trial) return undefined;
    const { checked, read } = trial;
    const slot = typeof at === 'string' ? slotNamed(at) : slotUnder(checked.sheet, at);
    if (!slot || !checked.house.shelf) return undefined;
    const choice = yield* choose(new Choosing(checked, this.rules), slot);
    return pickList(checked, choice, read);
  }

  /** Parts to pick for every open slot of a sheet at once. */
  *pickAllParts(uri: string): Steps<PickList | undefined> {
    const trial = this.trial(uri);
    if (!trial?.checked.house.shelf) return undefined;
    const { checked, read } = trial;
    const choosing = new Choosing(checked, this.rules);
    return pickListOfAll(checked, yield* chooseTogether(choosing, openSlots(choosing)), read);
  }

  /** The slot at an offset of a sheet for which the catalogs have parts. */
  slotAt(uri: string, offset: number): { name: string; title: string } | undefined {
    const checked = this.checkedAt(uri);
    const slot = checked && slotUnder(checked.sheet, offset);
    return slot && checked.house.shelf?.ofKind(slot.kind).length ? slot : undefined;
  }

  /** The id of a part or kit at an offset of an open text. */
  partId(uri: string, offset: number): PartId | undefined {
    const kind = this.workspace.get(uri)?.kind;
    const text = this.read(uri);
    return text && kind && kind !== 'house' ? partIdAt(kind, text, offset) : undefined;
  }

  /** Where the catalogs that hold for a text give an id. */
  partPlaces(uri: string, id: string): readonly Place[] {
    return this.workspace.houseFor(uri).house.shelf?.placesOf(id) ?? [];
  }

  /** Every id of the catalogs that hold for a text. */
  partNames(uri: string): readonly string[] {
    const { shelf } = this.workspace.houseFor(uri).house;
    return shelf ? [...shelf.ids('parts'), ...shelf.ids('kits')] : [];
  }

  /** The ids of parts and kits in a text, open or not; nothing where it could not be read to its end. */
  partIds(uri: string, text: string): PartId[] | undefined {
    const kind = kindOf(uri, this.workspace.get(uri)?.kind === 'catalog' ? 'build-sheet-parts' : 'build-sheet');
    if (kind !== 'sheet' && kind !== 'catalog') return [];
    const sheet: Sheet<unknown> = kind === 'catalog' ? catalogReader().read(text) : sheetReader().read(text);
    return sheet.broken ? undefined : partIdsIn(kind, { root: sheet.root, text });
  }

  /** What parts can be chosen for. */
  slotNames(): string[] {
    return slots.map(({ name }) => name);
  }

  /** What each stage of a sheet can be tuned from. */
  starting(uri: string): Starting[] {
    return startingOf(this.checkedAt(uri)?.plan ?? []);
  }

  /** How far the parts of each stage of a sheet go. */
  *headroom(uri: string): Steps<{ stages: readonly Headroom[]; units: Units }> {
    const checked = this.checkedAt(uri);
    if (!checked) return { stages: [], units: 'us' };
    return { stages: yield* headroomOf(checked, this.rules), units: unitsIn(checked.house) };
  }

  /** Puts the questions about a sheet one after the other; what a reply writes is to be made before the next one. */
  ask(uri: string, asking: Asking, reply?: Reply): Turn | undefined {
    const trial = this.trial(uri);
    return trial && ask(trial.checked, asking, reply, trial.read);
  }

  /** The next question that has no place in a sheet yet, and the edits that leave one for its answer. */
  nextQuestion(uri: string): NextQuestion | undefined {
    const trial = this.trial(uri);
    return trial && nextQuestion(trial.checked, trial.read);
  }

  /** The title of a sheet, if it has one. */
  title(uri: string): string | undefined {
    const text = this.workspace.get(uri);
    return text?.kind === 'sheet' ? this.texts.sheet(text).values.title : undefined;
  }

  /** Everything that is wrong with a text. */
  diagnose(uri: string): Diagnosis[] {
    const text = this.workspace.get(uri);
    if (!text) return [];
    if (text.kind !== 'sheet') return problemDiagnoses(uri, text.text, this.texts.reading(text).problems);
    const { faults } = this.workspace.houseFor(uri);
    return [...houseFaultDiagnoses(text.text, faults), ...sheetDiagnoses(uri, this.texts.checked(text))];
  }

  /**
   * Everything that is wrong with a text, each so that it can be known again in another state of it; with the titles of the
   * repairs that hold, if they are asked for.
   */
  told(uri: string, { repairs = false } = {}): Told[] {
    const text = this.workspace.get(uri);
    if (!text) return [];
    if (text.kind !== 'sheet')
      return problemsTold(
        uri,
        this.texts.reading(text),
        repairs ? (changed) => this.texts.readingOf(text, changed) : undefined,
      );
    return toldOf(uri, this.texts.checked(text), repairs ? this.texts.trying(text) : undefined);
  }

  /** House rules that should hold for a text and do not, or not all of them. */
  houseFaults(uri: string): readonly HouseFault[] {
    const text = this.workspace.get(uri);
    return text?.kind === 'sheet' ? this.workspace.houseFor(uri).faults : [];
  }

  /** Forgets what the check of texts that are not open left behind. */
  rest(): void {
    this.unopened = { reader: sheetReader() };
  }

  /** What the check of a text stands on besides the text: the same object as long as that stays the same. */
  standing(uri: string): Standing {
    return this.workspace.houseFor(uri);
  }

  /** What is wrong with a text that is not open, the faults of our own in its check, and what is named in it. */
  lookInto(uri: string, text: string): LookedInto {
    const kind = kindOf(uri, '');
    if (!kind) return { diagnoses: [], faults: [], named: [] };
    if (kind === 'house') {
      const { problems } = readHouse(text, this.known);
      return { diagnoses: problemDiagnoses(uri, text, problems), faults: [], named: [] };
    }
    if (kind === 'catalog') {
      const sheet = catalogReader().read(text);
      const { problems } = checkedCatalog(sheet, new Catalog(text));
      return { diagnoses: problemDiagnoses(uri, text, problems), faults: [], named: namedParts(sheet) };
    }
    const { house, faults } = this.workspace.houseFor(uri);
    const checked = checkSheet(this.unopened.reader.read(text), house, this.unopened.checked, this.rules);
    this.unopened.checked = checked;
    const diagnoses = [...houseFaultDiagnoses(text, faults), ...sheetDiagnoses(uri, checked)];
    return { diagnoses, faults: checked.faults, named: namedThings(checked.sheet) };
  }

  /** What there is to read of the field at an offset, in short; with what the build needs of it in steps. */
  *explained(uri: string, offset: number): Steps<Explanation | undefined> {
    const checked = this.checkedAt(uri);
    if (!checked) return this.explain(uri, offset);
    const fields = neededAt(checked.sheet.root, offset);
    if (fields.length === 0) return this.explain(uri, offset);
    const { needs } = yield* needsOf(checked, this.rules, (field) => fields.includes(field));
    const units = unitsIn(checked.house);
    return this.explain(
      uri,
      offset,
      needs.map((need) => needLine(need, units)),
    );
  }

  /** What there is to read of the field at an offset, in short. */
  explain(uri: string, offset: number, needs: Known['needs'] = []): Explanation | undefined {
    const text = this.workspace.get(uri);
    if (!text) return undefined;
    if (text.kind !== 'sheet') return hoverAt(this.texts.reading(text).root, offset, nothingKnown);
    const checked = this.texts.checked(text);
    const named = partIdAt('sheet', checked.sheet, offset);
    const part = named && partPage(checked.sheet, named, checked.house.currency);
    if (named && part) return { range: named.range, page: part, hasWork: false };
    const { sheet, plan, house, accepted, findings } = checked;
    const explanation = hoverAt(sheet.root, offset, {
      plan,
      units: unitsIn(house),
      accepted,
      findings,
      needs,
      why: (id) => this.rules.find((rule) => rule.id === id)?.why,
      completed: () => completed(checked),
    });
    return withQuestions(explanation, checked, offset);
  }

  /** How all that is computed of the field at an offset came about, with usual values where the sheet says nothing. */
  work(uri: string, offset: number): Work | undefined {
    const checked = this.checkedAt(uri);
    if (!checked) return undefined;
    const { plan } = completed(checked);
    return workAt(checked.sheet.root, offset, plan, unitsIn(checked.house));
  }

  /** What could be written at an offset. */
  complete(uri: string, offset: number): Completion | undefined {
    const text = this.workspace.get(uri);
    if (!text) return undefined;
    if (text.kind === 'house') return completionsAt(text.text, offset, houseRoot);
    if (text.kind === 'catalog') return completionsAt(text.text, offset, catalogRoot);
    const checked = this.texts.lastChecked(uri);
    const { shelf } = this.workspace.houseFor(uri).house;
    return completionsAt(text.text, offset, root, () => (checked ? ranksOf(checked) : NO_RANKS), shelf);
  }

  /** What would mend what is wrong in a stretch of text. */
  *repairs(uri: string, range: Range): Steps<Offer[]> {
    const text = this.workspace.get(uri);
    if (!text) return [];
    if (text.kind !== 'sheet')
      return problemRepairs(uri, this.texts.reading(text), range, (changed) => this.texts.readingOf(text, changed));
    return yield* repairsAt(uri, this.texts.checked(text), range, this.texts.trying(text));
  }

  /** The edits of a repair that was offered without them; none, if it does not hold. */
  *resolve(uri: string, choice: Choice): Steps<readonly TextEdit[]> {
    const trial = this.trial(uri);
    return trial ? yield* editsOf(trial.checked, choice, trial.read) : [];
  }

  /** What would mend everything that needs no choice, in one go. */
  repairsOfAll(uri: string): Offer[] {
    const checked = this.checkedAt(uri);
    return checked ? allRepairs(checked) : [];
  }

  /** Sections, fields and named items. */
  outline(uri: string): OutlineItem[] {
    const text = this.workspace.get(uri);
    return text ? outlineOf(text.text, this.texts.reading(text).root) : [];
  }

  /** Edits that put the white space of a text, or of a stretch of it, in order; nothing where it is left as it is. */
  format(uri: string, within?: Range): TextEdit[] | undefined {
    const text = this.workspace.get(uri);
    return text && formatEdits(text.text, within);
  }

  /** What can be folded. */
  folds(uri: string): Fold[] {
    const text = this.workspace.get(uri);
    return text ? foldsOf(text.text, this.texts.reading(text).root) : [];
  }

  /** The rules a text names, as links to their pages. */
  links(uri: string): RuleLink[] {
    const text = this.workspace.get(uri);
    return text ? linksOf(this.texts.reading(text).root) : [];
  }

  /** Where what stands at an offset is said. */
  definitions(uri: string, offset: number): Targets | undefined {
    const text = this.read(uri);
    return text && definitionsAt(text, offset);
  }

  /** Where later stages change what stands at an offset. */
  laterChanges(uri: string, offset: number): Targets | undefined {
    const text = this.read(uri);
    return text && changesAfter(text, offset);
  }

  /** Every place of what stands at an offset. */
  uses(uri: string, offset: number): Use[] {
    const text = this.read(uri);
    return text ? usesAt(text, offset) : [];
  }

  /** The name at an offset that can be changed. */
  renameable(uri: string, offset: number): { range: Range; name: string } | undefined {
    const text = this.read(uri);
    return text && nameAt(text, offset)?.here;
  }

  /** Another name for what is named at an offset. */
  rename(uri: string, offset: number, name: string): Renaming {
    const text = this.workspace.get(uri);
    if (!text) return { refusal: 'This text is not open.' };
    if (text.kind === 'sheet') return renamed(this.texts.sheet(text), offset, name, this.texts.trying(text));
    return renamed({ ...this.texts.house(text), text: text.text }, offset, name, (changed) =>
      readHouse(changed, this.known),
    );
  }

  /** The places that change together while a name is typed in one of them. */
  linked(uri: string, offset: number): { ranges: Range[]; pattern: string } | undefined {
    const text = this.read(uri);
    return text && linkedAt(text, offset);
  }

  /** Ever larger stretches of text around an offset. */
  selections(uri: string, offset: number): Range[] {
    const text = this.read(uri);
    return text ? selectionsAt(text.text, text.root, offset) : [];
  }

  /** What is named in a sheet. */
  named(uri: string): NamedThing[] {
    const text = this.workspace.get(uri);
    if (text?.kind === 'catalog') return namedParts({ text: text.text, root: this.texts.reading(text).root });
    return text?.kind === 'sheet' ? namedThings(this.texts.sheet(text)) : [];
  }

  /** What stands on the field at an offset. */
  fieldUses(uri: string, offset: number): Work | undefined {
    const checked = this.checkedAt(uri);
    return checked && fieldUses(checked, offset);
  }

  /** Ways to write a stretch of a sheet differently, to move it, or to insert what is missing. */
  actions(uri: string, range: Range): Action[] {
    const trial = this.trial(uri);
    return trial ? actionsAt({ ...trial, range }) : [];
  }

  /** Ways to make a section a part of a catalog; of a new one at an address, where the house has none. */
  extractions(uri: string, range: Range, newCatalog?: string): Extraction[] {
    const text = this.workspace.get(uri);
    if (text?.kind !== 'sheet') return [];
    const { workspace } = this;
    const [checked, read] = [this.texts.checked(text), this.texts.trying(text)];
    const readCatalog = (catalog: string) => checkedCatalog(catalogReader().read(catalog), new Catalog(catalog));
    return extractionsAt({ uri, checked, range, workspace, read, readCatalog }, newCatalog);
  }

  /** Where a catalog may be begun for a sheet whose house has none. */
  newCatalog(uri: string): string | undefined {
    return newCatalogFor(this.workspace, uri);
  }

  /** What is found in a stretch of a sheet and can be accepted. */
  acceptable(uri: string, range: Range): Acceptable[] {
    const checked = this.checkedAt(uri);
    return checked ? acceptableAt(uri, checked, range) : [];
  }

  /** The edits that accept what a rule finds. */
  accept(uri: string, accepted: Accepting): readonly TextEdit[] {
    const trial = this.trial(uri);
    return trial ? acceptance(trial.checked, accepted, trial.read) : [];
  }

  /** Figures to show beside their parts in a stretch of a sheet. */
  hints(uri: string, range: Range): Hint[] {
    const checked = this.checkedAt(uri);
    return checked ? hintsIn(checked, range) : [];
  }

  /** What a sheet comes to; nothing for what is no sheet. */
  verdict(uri: string): Verdict | undefined {
    const checked = this.checkedAt(uri);
    return checked && verdictOf(checked);
  }

  /** What the stages of a sheet come to, in words, at the place where they are listed. */
  stageVerdicts(uri: string): StageVerdicts | undefined {
    const checked = this.checkedAt(uri);
    return checked && stageVerdictsOf(checked);
  }

  /** A text as it stands, with its outline; nothing for what is not open. */
  private read(uri: string): NamedText | undefined {
    const text = this.workspace.get(uri);
    return text && { text: text.text, root: this.texts.reading(text).root };
  }

  /** A sheet with its newest check, and how another text of it would be read; nothing for what is no sheet. */
  private trial(uri: string): { checked: Checked; read: (changed: string) => Sheet } | undefined {
    const text = this.workspace.get(uri);
    return text?.kind === 'sheet' ? { checked: this.texts.checked(text), read: this.texts.trying(text) } : undefined;
  }

  private checkedAt(uri: string): Checked | undefined {
    return this.texts.checkedAt(uri);
  }
}
