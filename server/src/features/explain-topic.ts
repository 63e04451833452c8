import { capital } from '../analysis/figure-words.ts';
import { figureNamed, figures } from '../analysis/figures.ts';
import { cautionsOf } from '../checking/cautions.ts';
import { rules } from '../generated/rules.ts';
import { type Block, type Page, paragraph, prose } from '../report/page.ts';
import { type FieldPath, fieldSchema } from '../sheet/path.ts';
import { problemCodes } from '../sheet/problem.ts';
import type { FieldSchema } from '../sheet/schema.ts';
import { rangeLine } from '../sheet/usual-range.ts';
import { dimensions } from '../units/units.ts';
import { questionText } from './questions.ts';

/** What there is to read of a rule, a problem with the text, a figure or a field, by its name. */
export function topicPage(topic: string): Page | undefined {
  return rulePage(topic) ?? problemPage(topic) ?? figurePage(topic) ?? fieldPage(topic);
}

/** The names of all rules, problems and figures. */
export function topicNames(): string[] {
  return [...rules.map(({ id }) => id), ...Object.keys(problemCodes), ...figures.map(({ id }) => id)];
}

function titled(title: string, name: string, what: string): Block {
  return paragraph({ strong: title }, ' ', { code: name }, ` (${what})`);
}

function section(title: string, text: string): Block[] {
  return [paragraph({ strong: title }), paragraph(...prose(text))];
}

function rulePage(id: string): Page | undefined {
  const rule = rules.find((one) => one.id === id);
  if (!rule) return undefined;
  return [
    titled(rule.title, id, rule.severity),
    ...section('Why', rule.why),
    ...section('What to look at', rule.inspect),
    ...section('How it is repaired', rule.remedy),
    ...section('Source', `${capital(rule.source)}.`),
    paragraph({ strong: 'Caution' }),
    { kind: 'list', items: cautionsOf(rule).map((caution) => prose(caution)) },
  ];
}

function problemPage(code: string): Page | undefined {
  if (!Object.hasOwn(problemCodes, code)) return undefined;
  const { title, why } = problemCodes[code as keyof typeof problemCodes];
  return [titled(title, code, 'the text itself'), paragraph(...prose(why))];
}

function figurePage(id: string): Page | undefined {
  const figure = figureNamed(id);
  if (!figure) return undefined;
  const { name, dimension, home, symbol, formula, source } = figure;
  const unknown = 'It depends on the build; the work behind a field in the editor shows it with its numbers.';
  return [
    titled(capital(name), id, `a figure, ${dimensions[dimension].title}`),
    ...(formula ? [paragraph({ code: `${symbol} = ${formula}` })] : [paragraph({ code: symbol }), paragraph(unknown)]),
    ...(source ? section('Source', `${capital(source)}.`) : []),
    paragraph('Shown at: ', ...home.flatMap((field, index) => [index > 0 ? ', ' : '', { code: field }]), '.'),
  ];
}

function fieldPage(field: string): Page | undefined {
  const schema = fieldSchema(field as FieldPath);
  if (!schema) return undefined;
  return [
    titled(schema.title ?? field, field, 'a field'),
    ...(schema.description ? [paragraph(...prose(schema.description))] : []),
    paragraph(questionText(field as FieldPath)),
    ...valuesOf(schema),
  ];
}

function valuesOf({ enum: choices, enumDescriptions = [], examples: [example] = [], ...schema }: FieldSchema): Block[] {
  if (choices) {
    const items = choices.map((choice, index) => [{ code: choice }, ' ', ...prose(enumDescriptions[index] ?? '')]);
    return [{ kind: 'list', items }];
  }
  const line = rangeLine(schema);
  const range = line ? [paragraph(line)] : [];
  return example === undefined || typeof example === 'object'
    ? range
    : [...range, paragraph('Such as ', { code: String(example) }, '.')];
}
