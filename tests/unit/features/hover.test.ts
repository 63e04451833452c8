import { describe, expect, it } from 'vitest';
import { type Checked, checkText } from '../../../server/src/checking/checked.ts';
import { type Explanation, hoverAt, type Known } from '../../../server/src/features/hover.ts';
import { workAt } from '../../../server/src/features/work.ts';
import { completed } from '../../../server/src/fit/completed.ts';
import { rules } from '../../../server/src/generated/rules.ts';
import { markdown } from '../../../server/src/report/markdown.ts';
import type { House } from '../../../server/src/sheet/house.ts';
import type { System } from '../../../server/src/units/units.ts';
import { atCursor } from './cursor.ts';

function hover(marked: string, system: System = 'us', house: House = {}): Explanation | undefined {
  const { text, offset } = atCursor(marked);
  const checked = checkText(text, house);
  return hoverAt(checked.sheet.root, offset, { ...knownOf(checked), units: system });
}

function knownOf(checked: Checked): Known {
  const { plan, accepted, findings } = checked;
  const why = (id: string) => rules.find((rule) => rule.id === id)?.why;
  return { plan, units: 'us', accepted, findings, why, needs: [], completed: () => completed(checked) };
}

/** All that is computed there, as Markdown. */
function work(marked: string, system: System = 'us'): string {
  const { text, offset } = atCursor(marked);
  const { sheet, plan } = checkText(text, {});
  return markdown(workAt(sheet.root, offset, plan, system)?.page ?? []);
}

/** The hover's text; throws where there is none. */
function told(marked: string, system: System = 'us'): string {
  const found = hover(marked, system);
  if (!found) throw new Error('no hover');
  return markdown(found.page).replaceAll('\u00a0', ' ');
}

const stages = `format: 1
engine: { cylinders: 8, displacement: 4.9 L, peak-power-speed: 5000 rpm, redline: 5500 rpm }
fuel: { grade: gasoline }
throttle-body:
  injectors: { quantity: 4, static-flow: 80 lb/h, rated-pressure: 43.5 psi, dead-time: 0.9 ms }
fuel-system: { regulator: { pressure: 58 psi, reference: atmosphere } }
stages:
  - { name: now, power: 245 hp, induction: natural }
  - { name: later, power: 290 +/- 10 hp, induction: natural }
`;
const at = (text: string, before: string) => text.replace(before, `‸${before}`);

describe('hover on a field', () => {
  it.each([
    ['its name', 'format: 1\nengine: { displa‸cement: 4.9 L }\n'],
    ['its value', 'format: 1\nengine: { displacement: 4.‸9 L }\n'],
    ['the end of its value', 'format: 1\nengine: { displacement: 4.9 L‸ }\n'],
  ])('tells its meaning and value in other units on %s', (_, marked) => {
    expect(told(marked).split('\n\n').slice(0, 3)).toEqual([
      '**Displacement** `engine.displacement`',
      'Swept volume of all cylinders.',
      '4.9 L = 299 in^3. Possible: 0.2 L to 20 L.',
    ]);
  });

  it('marks its name', () => {
    const marked = 'format: 1\nengine: { displacement: 4.‸9 L }\n';
    const { text } = atCursor(marked);
    const { range } = hover(marked) ?? {};
    expect(text.slice(range?.start, range?.end)).toBe('displacement');
  });

  it('tells the tolerance', () => {
    expect(told('stages: [{ power: ‸350 +/- 15 hp }]\n')).toContain('From 335 hp to 365 hp.');
  });

  it('tells what was taken for granted in reading it', () => {
    const text = told('engine: { idle-manifold-pressure: ‸15 inHg vacuum }\n');
    expect(text).toContain('14.92 inHg = 7.329 psi = 50.53 kPa');
    expect(text).toMatch(/Note: vacuum is counted down from the air: .*101\.325 kPa.*\./);
  });

  it('tells the meaning of a choice', () => {
    expect(told('fuel-system: { pump: { placement: ‸in-tank } }\n')).toMatch(/`in-tank`: .+\./);
  });

  it('tells meaning and range even where the value is wrong', () => {
    const text = told('engine: { displacement: ‸4.9 psi }\n');
    expect(text).toContain('Swept volume of all cylinders.');
    expect(text).not.toContain('=');
  });

  it('tells the gauge of a wire, and nothing of one that cannot be', () => {
    expect(told('electrical: { pump-circuit: { wire: ‸4 mm^2 } }\n')).toContain('4 mm^2 = 11 AWG');
    expect(told('electrical: { pump-circuit: { wire: ‸-4 mm^2 } }\n')).not.toContain('AWG =');
    expect(told('electrical: { pump-circuit: { wire: ‸9/0 AWG } }\n')).toContain('Wire size');
  });

  it.each([
    ['before the first field', '‸\nformat: 1\n'],
    ['a field that is not known', 'engine: { nonsen‸se: 1 }\n'],
    ['the value of a field that is not known', 'nonsense: { a: ‸1 }\n'],
    ['nothing at all', '‸'],
  ])('is silent on %s', (_, marked) => {
    expect(hover(marked)).toBeUndefined();
  });
});

describe('hover on what decides figures', () => {
  it('has a table of the first figures of every stage with what they are held against', () => {
    const text = told(at(stages, 'injectors'));
    expect(text).toMatch(/\| figure \| now \| later \|\n\|:---\|---:\|---:\|/);
    expect(text).toMatch(
      /\| Duty cycle at redline \(at most 85 %\) \| [\d.]+ % \| [\d.]+ % \([\d.]+ % to [\d.]+ %\) \|/,
    );
  });

  it('has those with limits first where a finding takes up room', () => {
    const text = told(at(stages.replace('80 lb/h', '30 lb/h'), 'injectors'));
    expect(text).toMatch(
      /\| figure \| now \| later \|\n\|:---\|---:\|---:\|\n\| Duty cycle at peak-power speed \(at most 85 %\)/,
    );
    expect(text).not.toContain('The injectors of one throttle body.');
  });

  it('is in the units of the house', () => {
    expect(told(at(stages, 'injectors'), 'si')).toMatch(
      /\| Static flow of one injector at that pressure \| [\d.]+ cm\^3\/min/,
    );
    expect(told(at(stages, 'injectors'), 'us')).toMatch(
      /\| Static flow of one injector at that pressure \| [\d.]+ lb\/h/,
    );
  });

  it('is of one stage on that stage', () => {
    const text = told(at(stages, 'later'));
    expect(text).toMatch(/\| figure \| later \|\n/);
    expect(text).not.toContain('| now |');
  });

  it('fills a short sheet with usual values, marked and counted, and names what is not known', () => {
    const text = told(`format: 1
engine: { cylinders: 8, displacement: 6.05 L }
fuel: { grade: gasoline-e10 }
‸stages:
  - { name: now, power: 330 hp, induction: natural }
  - { name: blower, induction: roots }
`);
    expect(text).toMatch(
      /\| Static flow each injector needs at the duty limit \\\* \| [\d.]+ lb\/h \| [\d.]+ lb\/h \|/,
    );
    expect(text).toMatch(/\\\* with usual values: \d+ are assumed\. Not known yet: `[a-z.-]+`, .* and \d+ more\./);
  });

  it('says why what is found here is wrong', () => {
    const text = told('format: 1\nignition: { ‸trigger: contact-points }\n');
    expect(text).toContain('**Why:**');
  });

  it('keeps its table whole with any name of a stage', () => {
    const named = stages.replace('name: now', 'name: "a|b\\nc"');
    const row = told(at(named, 'injectors'))
      .split('\n')
      .find((line) => line.startsWith('| figure'));
    expect(row).toBe('| figure | a\\|b c | later |');
  });
});

describe('the work', () => {
  it('has a table with every stage and every step for the hungriest', () => {
    const text = work(at(stages, 'injectors'));
    expect(text).toContain('The work, stage "later":');
    expect(text).toMatch(/\*\*Duty cycle at redline\*\* `.* = .*` = [\d.]+ %/);
    expect(text).toContain('- source: ');
  });

  it('tells which fields are missing for what', () => {
    const text = work('format: 1\nthrottle-body: { ‸injectors: { quantity: 4 } }\n');
    expect(text).toContain('Not computed:');
    expect(text).toMatch(/- Duty cycle at redline needs .*`throttle-body\.injectors\.static-flow`/);
  });

  it('tells what makes a figure impossible', () => {
    const text = work(
      'format: 1\nfuel-system: { ‸pump: { flow-at: [[60 psi, 270 L/h], [40 psi, 225 L/h]], rated-voltage: 13.5 V }, regulator: { pressure: 58 psi, reference: atmosphere } }\nstages: [{ power: 300 hp }]\nengine: { cylinders: 8 }\n',
    );
    expect(text).toMatch(/- Pump flow to spare.*: The pump's points must be in rising order of pressure/);
  });
});

describe('hover on what is silenced', () => {
  it('tells what is accepted and why', () => {
    const text = told(
      'format: 1\nignition: { trigger: contact-points }\nsil‸ence:\n  - { rule: ignition/contact-points, reason: museum piece }\n',
    );
    expect(text).toMatch(/- accepted `ignition\/contact-points`: .* Reason: museum piece/);
  });
});
