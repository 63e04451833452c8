import type { StageAnalysis } from '../analysis/analysis.ts';
import type { Figure, Term } from '../analysis/figure.ts';
import { capital } from '../analysis/figure-words.ts';
import type { Checked } from '../checking/checked.ts';
import { type Block, paragraph, prose, type Span } from '../report/page.ts';
import { type Entry, pathText } from '../sheet/entry.ts';
import type { Path } from '../sheet/path.ts';
import { echo } from '../text/echo.ts';
import { describedEntry } from './described.ts';
import type { Work } from './work.ts';

/** The figures that stand on the field at an offset, by stage, and what is found there; nothing where no field is. */
export function fieldUses(checked: Checked, offset: number): Work | undefined {
  const entry = describedEntry(checked.sheet.root, offset);
  if (!entry?.schema || entry.path.length === 0) return undefined;
  const title = entry.schema.title ?? String(entry.path.at(-1));
  const head = paragraph({ strong: title }, ' ', { code: echo(pathText(entry.path), 120) });
  const rows = usesOf(entry.path, checked.plan);
  const figures: Block[] = rows.length
    ? [paragraph('Figures that stand on it:'), { kind: 'table', head: ['figure', 'how', 'in'], rows }]
    : [paragraph('No figure of this sheet stands on it.')];
  return { title, page: [head, ...figures, ...findingsAt(entry, checked)] };
}

/** A row for each figure: its name, whether it takes the field directly or through which figures, and the stages. */
function usesOf(path: Path, plan: readonly StageAnalysis[]): string[][] {
  const uses = new Map<string, { name: string; through: Set<string>; stages: string[] }>();
  for (const stage of plan) {
    const { figures } = stage;
    const known = new Map<string, boolean>();
    for (const [id, figure] of figures) {
      if (!stands(figure, path, figures, known)) continue;
      const use = uses.get(id) ?? { name: capital(figure.name), through: new Set(), stages: [] };
      for (const way of waysOf(figure, path, figures, known)) use.through.add(way);
      use.stages.push(echo(stage.name));
      uses.set(id, use);
    }
  }
  return [...uses.values()]
    .toSorted((one, other) => Number(other.through.has('')) - Number(one.through.has('')))
    .map(({ name, through, stages }) => {
      const ways = [...through].filter(Boolean);
      const how = [...(through.has('') ? ['directly'] : []), ...(ways.length ? [`through ${ways.join(', ')}`] : [])];
      return [
        name,
        how.join('; '),
        stages.length === plan.length && plan.length > 1 ? 'every stage' : stages.join(', '),
      ];
    });
}

type Figures = ReadonlyMap<string, Figure>;

function stands(figure: Figure, path: Path, figures: Figures, known: Map<string, boolean>): boolean {
  const { id } = figure;
  const before = known.get(id);
  if (before !== undefined) return before;
  known.set(id, false);
  const found = figure.inputs.some((term) => isField(term, path) || standsThrough(term, path, figures, known));
  known.set(id, found);
  return found;
}

function standsThrough(term: Term, path: Path, figures: Figures, known: Map<string, boolean>): boolean {
  const inner = term.figure === undefined ? undefined : figures.get(term.figure);
  return inner !== undefined && stands(inner, path, figures, known);
}

/** The figures between, and an empty text where the field is taken itself. */
function waysOf(figure: Figure, path: Path, figures: Figures, known: Map<string, boolean>): string[] {
  return figure.inputs.flatMap((term) => {
    if (isField(term, path)) return [''];
    return standsThrough(term, path, figures, known) ? [figures.get(term.figure as string)?.name ?? ''] : [];
  });
}

/** Whether a term is the field, or a field in the section. */
function isField({ field, assumed }: Term, path: Path): boolean {
  return field !== undefined && !assumed && path.every((step, index) => field[index] === step);
}

function findingsAt(entry: Entry, { findings }: Checked): Block[] {
  const isAt = (path: Path) => entry.path.every((step, index) => path[index] === step);
  const here = findings.filter(({ path, related }) => isAt(path) || related.some((other) => isAt(other.path)));
  if (here.length === 0) return [];
  const items = here.map(({ rule, message }): Span[] => [{ code: rule }, ': ', ...prose(echo(message, 300))]);
  return [paragraph('Findings it has to do with:'), { kind: 'list', items }];
}
