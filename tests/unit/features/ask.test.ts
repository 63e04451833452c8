import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { type Asking, ask, beginning, nextQuestion, type Reply, type Turn } from '../../../server/src/features/ask.ts';
import { askedOf } from '../../../server/src/features/questions.ts';
import type { BuildSheet } from '../../../server/src/generated/build-sheet.ts';
import { validateSheet } from '../../../server/src/generated/validate.js';
import { applyEdits } from '../../../server/src/sheet/edit.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { entryOf, readText } from '../../../server/src/sheet/read.ts';
import { root } from '../../../server/src/sheet/schema.ts';

const read = (text: string) => readText<BuildSheet>(text, root, validateSheet);
const SHORT = `format: 1
site: { altitude: 1200 ft } # behind the hills
engine:
  cylinders: 8
  displacement: 6.05 L # stroked
fuel: { grade: gasoline-e10 }
stages:
  - { name: now, power: 330 hp }
  # in two years
  - { name: blower, power: 450 hp, induction: roots }
`;

/** A talk over a text, reply by reply. */
class Talk {
  asking: Asking = beginning;
  turn: Turn;

  constructor(public text: string) {
    this.turn = this.next(undefined);
  }

  next(reply: Reply | undefined): Turn {
    const turn = ask(checkText(this.text, noHouse), this.asking, reply, read);
    this.text = applyEdits(this.text, turn.edits);
    this.asking = turn.asking;
    this.turn = turn;
    return turn;
  }

  /** Answers what is asked of one field, and says of everything before that it is not known. */
  answer(field: string, answer: string): Turn {
    for (let count = 0; this.turn.question && this.turn.question.field !== field; count++) {
      if (count > 200) throw new Error(`${field} is never asked`);
      this.next('unknown');
    }
    return this.next({ answer });
  }
}

const asked = (text: string) => askedOf(checkText(text, noHouse));

describe('the questions about a sheet', () => {
  it('begin with what most waits for, and tell what that is', () => {
    const [first] = asked('format: 1\n');
    expect(first).toMatchObject({ field: 'stages.power', stage: 0, unit: 'hp' });
    expect(first?.settles.length).toBeGreaterThan(10);
    expect(first?.figures).toContain('fuel demand by power');
    expect(asked(SHORT).length).toBeGreaterThan(10);
  });

  it('ask a section that is missing by the fields it begins with', () => {
    const fields = asked(SHORT).map(({ field }) => field as string);
    expect(fields).toEqual(
      expect.arrayContaining(['ignition.trigger', 'ignition.driver', 'fuel-system.pump.placement']),
    );
    expect(fields).not.toEqual(expect.arrayContaining(['ignition']));
  });

  it('name the stage they are about where there are several', () => {
    const boost = asked(SHORT).find(({ field }) => field === 'stages.boost');
    expect(boost).toMatchObject({ stage: 1, at: 'stages[1].boost', text: expect.stringMatching(/^Stage "blower": /) });
    expect(asked(SHORT).filter(({ field }) => field === 'stages.boost')).toHaveLength(1);
  });

  it('ask what is planned for later of a plan with one stage', () => {
    const one = SHORT.replace(/ {2}# in two[\s\S]*$/, '');
    const later = asked(one).find(({ field, stage }) => field === 'stages.power' && stage === 1);
    expect(later?.text).toMatch(/planned for later/);
    expect(asked(SHORT).filter(({ field }) => field === 'stages.power')).toEqual([]);
  });

  it('put fields left empty first', () => {
    const text = SHORT.replace('  cylinders: 8\n', '  cylinders: 8\n  redline:\n');
    expect(asked(text)[0]).toMatchObject({ field: 'engine.redline', isEmpty: true });
  });

  it('leave out what makes no sense in this car', () => {
    const fields = (placement: string) =>
      asked(`${SHORT}fuel-system: { pump: { placement: ${placement} } }\n`).map(({ field }) => field as string);
    expect(fields('in-tank').filter((field) => field.startsWith('fuel-system.suction'))).toEqual([]);
    expect(fields('in-tank')).not.toContain('fuel-system.pump.height-above-outlet');
    expect(fields('external')).toEqual(
      expect.arrayContaining(['fuel-system.suction.length', 'fuel-system.pump.height-above-outlet']),
    );
  });

  it('tell what is taken until the answer is known, and why', () => {
    const usual = asked(SHORT).find(({ field }) => field === 'site.hottest')?.usual;
    expect(usual).toMatchObject({ value: '95 degF', because: expect.stringContaining('common practice') });
  });
});

describe('asking', () => {
  it('writes each answer at once, in the unit that was shown', () => {
    const talk = new Talk('');
    expect(talk.turn.question).toMatchObject({ field: 'stages.power', unit: 'hp' });
    talk.next({ answer: '330' });
    expect(talk.text).toMatch(/^format: \d+\nstages:\n {2}- \{ power: 330 hp \}\n$/);
    talk.answer('engine.compression-ratio', '9.1');
    expect(talk.text).toContain('\n  compression-ratio: 9.1\n');
    talk.answer('engine.displacement', '6.05 liters');
    expect(talk.text).toContain('\n  displacement: 6.05 liters\n');
    talk.answer('ignition.trigger', 'points');
    expect(talk.text).toContain('\n  trigger: contact-points\n');
    talk.answer('fuel-system.tank.vent', 'Yes');
    expect(talk.text).toContain('\n    vent: true\n');
    const other = new Talk(SHORT);
    other.answer('fuel-system.pump.flow-at', '40 psi 270 L/h, 60 225');
    expect(other.text).toContain('flow-at: [[40 psi, 270 L/h], [60 psi, 225 L/h]]\n');
  });

  it('keeps order and comments', () => {
    const talk = new Talk(SHORT);
    talk.answer('stages.boost', '6 psi');
    talk.answer('engine.redline', '5500');
    expect(talk.text).toContain('  displacement: 6.05 L # stroked\n');
    expect(talk.text).toContain('  redline: 5500 rpm\n');
    expect(talk.text).toContain('power: 450 hp, induction: roots, boost: 6 psi }\n');
    const lines = SHORT.split('\n').filter((line) => !line.includes('name:'));
    for (const line of lines) expect(talk.text).toContain(line);
  });

  it('leaves an empty field where the answer is not known yet, and does not ask again', () => {
    const talk = new Talk('format: 1\n');
    const field = talk.turn.question?.field;
    talk.next('unknown');
    expect(talk.text).toContain('- { power: }');
    expect(talk.turn.question?.field).not.toBe(field);
    expect(asked(talk.text)[0]?.field).toBe(field);
  });

  it('writes no later stage where none is planned', () => {
    const talk = new Talk('format: 1\nstages: [{ name: now, power: 200 hp }]\n');
    while (talk.turn.question && talk.turn.question.stage !== 1) talk.next('unknown');
    const before = talk.text;
    expect(talk.next('unknown').edits).toEqual([]);
    expect(talk.text).toBe(before);
  });

  it('says why an answer cannot be, and asks again', () => {
    const talk = new Talk(SHORT);
    while (talk.turn.question?.field !== 'engine.redline') talk.next('unknown');
    for (const [answer, reason] of [
      ['fast', /not a quantity/],
      ['5500 hp', /unit of power/],
      ['900000', /out of range/],
      ['', /not known yet/],
    ] as const) {
      const before = talk.text;
      expect(talk.next({ answer }).refusal, answer).toMatch(reason);
      expect(talk.turn.question?.field).toBe('engine.redline');
      expect(talk.text).toBe(before);
    }
    expect(talk.next({ answer: '5500 rpm' }).refusal).toBeUndefined();
  });

  it('goes back to what was asked before, shows what is written, and comes forward again', () => {
    const talk = new Talk(SHORT);
    const first = talk.turn.question?.field;
    talk.next({ answer: '5' });
    const second = talk.turn.question?.field;
    talk.next('back');
    expect(talk.turn.question).toMatchObject({ field: first, written: '5 psi' });
    talk.next('back');
    expect(talk.turn.question?.field).toBe(first);
    talk.next('keep');
    expect(talk.turn.question?.field).toBe(second);
    talk.next('back');
    talk.next({ answer: '7' });
    expect(talk.text).toContain('boost: 7 psi');
    expect(talk.turn.question?.field).toBe(second);
  });

  it('asks for no place twice, though another stage lacks it too', () => {
    const talk = new Talk(`${SHORT}throttle-body: { bores: { quantity: 4, diameter: 44 mm } }\n`);
    const places: string[] = [];
    while (talk.turn.question) {
      places.push(talk.turn.question.at);
      talk.next('unknown');
    }
    expect(places.filter((place, index) => places.indexOf(place) !== index)).toEqual([]);
  });

  it('comes to an end, whatever the sheet', { timeout: 60_000 }, () => {
    for (const sample of ['night-shift', 'overreach-roadster', 'quarry-wagon']) {
      const talk = new Talk(readFileSync(`samples/${sample}.build.yaml`, 'utf8'));
      let count = 0;
      while (talk.turn.question && count < 400) {
        talk.next('unknown');
        count++;
      }
      expect(talk.turn.question, sample).toBeUndefined();
    }
  });

  it('keeps every comment and every other value, whatever is answered', { timeout: 120_000 }, () => {
    const answers = fc.array(
      fc.oneof(
        fc.constantFrom(
          '8',
          '5 psi',
          '330 hp',
          '4.9 L',
          'yes',
          'no',
          '1',
          'points',
          'none',
          '12 AWG',
          '40 psi 270 L/h',
          '- {',
          'a: b #',
        ),
        fc.constant('unknown' as const),
        fc.constant('back' as const),
        fc.constant('keep' as const),
      ),
      { minLength: 1, maxLength: 12 },
    );
    const texts = fc.constantFrom(
      '',
      '# nothing yet\n',
      SHORT,
      SHORT.replaceAll('\n', '\r\n'),
      'format: 1\nengine:\nfuel-system: { pump: }\n',
    );
    fc.assert(
      fc.property(texts, answers, (text, replies) => {
        const talk = new Talk(text);
        for (const one of replies) {
          const { question } = talk.turn;
          const before = read(talk.text);
          const comments = talk.text.match(/#.*/g) ?? [];
          const turn = talk.next(one === 'unknown' || one === 'back' || one === 'keep' ? one : { answer: one });
          const after = read(talk.text);
          for (const comment of comments) expect(talk.text).toContain(comment);
          expect(after.problems).toEqual(
            after.problems.filter(({ code }) => before.problems.some((known) => known.code === code)),
          );
          if (turn.edits.length === 0 || !question) expect(talk.text).toBe(before.text);
          else expect(entryOf(after, question.place)).toBeDefined();
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe('the next question', () => {
  it('is inserted as an empty field, and after it the next', () => {
    let text = SHORT;
    const places = new Set<string>();
    for (let count = 0; count < 5; count++) {
      const next = nextQuestion(checkText(text, noHouse), read);
      const after = applyEdits(text, next?.edits ?? []);
      expect(after).not.toBe(text);
      expect(read(after).problems).toEqual([]);
      expect(read(after).unknown.length).toBe(read(text).unknown.length + 1);
      text = after;
      places.add(next?.text ?? '');
    }
    expect(places.size).toBe(5);
  });
});
