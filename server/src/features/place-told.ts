import type { BuildSheet } from '../generated/build-sheet.ts';
import { changedIn, type Path } from '../sheet/path.ts';
import { knownFields, root, schemaAt } from '../sheet/schema.ts';
import { meant } from '../sheet/words.ts';
import { quoted } from '../text/echo.ts';

/** A field of a sheet as somebody tells it, or why it is none. */
export type PlaceTold = { place: Path } | { refusal: string };

/**
 * The field that a text such as `engine.displacement` tells; of a stage by its name, or by its number from 0 as paths are
 * shown: `stages.blower.boost`, `stages[1].boost`. A field that stages do not have themselves is one the stage changes.
 */
export function placeTold(text: string, { stages = [] }: Partial<BuildSheet>): PlaceTold {
  const stage = stageTold(text, stages);
  if (stage && 'refusal' in stage) return stage;
  const steps = stepsOf(stage?.rest ?? text);
  if (!stage) return known([], steps);
  const own = ['stages', stage.index];
  const [first] = steps;
  if (first === undefined) return { refusal: `Say which field of the stage is meant in ${quoted(text)}.` };
  return first === 'changes' || schemaAt([...own, first])
    ? known(own, steps)
    : known(changedIn(stage.index, []), steps);
}

type StageTold = { index: number; rest: string } | { refusal: string } | undefined;

function stageTold(text: string, stages: readonly { name?: string }[]): StageTold {
  const [, number, rest = ''] = /^stages\[(\d+)\]\.?(.*)$/.exec(text) ?? [];
  if (number !== undefined) {
    const index = Number(number);
    return index < stages.length ? { index, rest } : { refusal: `There is no stage [${index}]: they count from [0].` };
  }
  if (!text.startsWith('stages.')) return undefined;
  const named = stages
    .map(({ name = '' }, index) => ({ index, lead: `stages.${name}.`, name }))
    .filter(({ name, lead }) => name !== '' && text.startsWith(lead))
    .toSorted((one, other) => other.lead.length - one.lead.length)[0];
  if (named) return { index: named.index, rest: text.slice(named.lead.length) };
  const names = stages.map(({ name }, index) => (name === undefined ? `[${index}]` : quoted(name)));
  return {
    refusal: `${quoted(text)} names no stage; there ${names.length === 0 ? 'is none' : `are ${names.join(', ')}`}.`,
  };
}

function stepsOf(text: string): Path {
  const steps = text.split('.').flatMap((part): (string | number)[] => {
    const [, name = part, items = ''] = /^([^[\]]*)((?:\[\d+\])*)$/.exec(part) ?? [];
    return [...(name === '' ? [] : [name]), ...[...items.matchAll(/\d+/g)].map(Number)];
  });
  return steps;
}

function known(lead: Path, steps: Path): PlaceTold {
  let schema = lead.length > 0 && lead.at(-1) !== 'changes' ? schemaAt(lead) : root;
  for (const [index, step] of steps.entries()) {
    const next = schemaAt([...lead, ...steps.slice(0, index + 1)]);
    if (!next) {
      const near = typeof step === 'string' ? meant(step, knownFields(schema)) : undefined;
      const hint = near === undefined ? '' : `; did you mean ${quoted([...steps.slice(0, index), near].join('.'))}?`;
      return { refusal: `There is no field ${quoted(steps.join('.'))}${hint || '.'}` };
    }
    schema = next;
  }
  return steps.length > 0 ? { place: [...lead, ...steps] } : { refusal: 'Say which field is meant.' };
}
