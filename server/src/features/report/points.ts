import type { StageAnalysis } from '../../analysis/analysis.ts';
import { type Page, paragraph } from '../../report/page.ts';
import { makesSense } from '../../sheet/makes-sense.ts';
import { type FieldPath, fieldSchema, stepsOf, valueAt } from '../../sheet/path.ts';
import { isPoint } from '../../sheet/points.ts';
import { child, type FieldSchema, resolve, root } from '../../sheet/schema.ts';
import { echo } from '../../text/echo.ts';

/** The points of installation as the sheet answers them, section by section, for whoever goes over the car with it. */
export function pointsPage(plan: readonly StageAnalysis[]): Page {
  const told = new Map<FieldPath, string>();
  const rows: string[][] = [];
  let open = 0;
  for (const [index, { name, sheet }] of plan.entries())
    for (const field of points()) {
      const steps = stepsOf(field);
      const isOfStage = steps[0] === 'stages';
      const value = isOfStage ? valueAt(sheet.stage, steps, 1) : valueAt(sheet.values, steps);
      const answer = answerText(value, fieldSchema(field));
      if (answer === undefined && index === 0 && isMissed(field, sheet)) open++;
      if (answer === undefined || told.get(field) === answer) continue;
      told.set(field, answer);
      rows.push([sectionTitle(steps), fieldSchema(field)?.title ?? field, answer, echo(name)]);
    }
  if (rows.length === 0) return [];
  const left = open === 1 ? '1 more is not answered' : `${open} more are not answered`;
  return [
    { kind: 'table', head: ['where', 'point', 'as the sheet says', 'stage'], rows },
    paragraph(
      `${open > 0 ? `${left}; they are among what is still to be asked. ` : ''}Look at each on the car: the sheet only repeats what was written into it.`,
    ),
  ];
}

/** Whether a point without an answer makes sense in a stage: not where there is no such part at all. */
function isMissed(field: FieldPath, sheet: StageAnalysis['sheet']): boolean {
  const section = stepsOf(field).slice(0, -1);
  const isOfStage = section[0] === 'stages';
  const given = isOfStage ? valueAt(sheet.stage, section, 1) : valueAt(sheet.values, section);
  const isNone = given === undefined && fieldSchema(section.join('.') as FieldPath)?.absent === 'none';
  return !isNone && makesSense(field, sheet) === true;
}

let known: readonly FieldPath[] | undefined;

/** Every point that holds a value, in the order of the schema. */
function points(): readonly FieldPath[] {
  known ??= leavesOf(root, []).filter((field) => isPoint(field) && fieldSchema(field)?.absent !== 'none');
  return known;
}

function leavesOf(schema: FieldSchema, path: readonly string[]): FieldPath[] {
  return Object.keys(resolve(schema).properties ?? {}).flatMap((name) => {
    const inner = child(schema, name);
    const steps = [...path, name];
    if (!inner || steps.join('.') === 'stages.changes') return [];
    if (inner.type === 'object') return leavesOf(inner, steps);
    return name === 'stages' ? leavesOf(child(inner, 0) ?? {}, steps) : [steps.join('.') as FieldPath];
  });
}

function sectionTitle(steps: readonly string[]): string {
  return fieldSchema(steps.slice(0, -1).join('.') as FieldPath)?.title ?? '';
}

function answerText(value: unknown, schema: FieldSchema | undefined): string | undefined {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return String(value);
  if (typeof value === 'string')
    return schema?.enumDescriptions?.[schema.enum?.indexOf(value) ?? -1]?.replace(/\.$/, '') ?? echo(value);
  return typeof value === 'object' && value !== null && 'text' in value ? echo(String(value.text)) : undefined;
}
