import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { figures } from '../../server/src/analysis/figures.ts';
import { areas } from '../../server/src/checking/rule.ts';
import { rules } from '../../server/src/generated/rules.ts';
import { fixtures, readFixture, readMarked } from './fixture.ts';
import { shownIn } from './shown.ts';

/** Documents and people a source may name; a mention must say the edition, or that it was not at hand. */
const NAMED =
  /\b(ISO|SAE|ASTM|EN \d|ABYC|NFPA|AWS|AP-42|NACA|Heywood|Crane|IEC|CFR|DOE|Colebrook|Douaud|Kameoka|Fritsch)\b/;
const DATED = /\b(1[89]|20)\d\d\b|\d(st|nd|rd|th) ed|from memory|secondary copies/;

const PAGES = 'schemas/reference/rules';
const pages = Object.keys(areas).flatMap((area) =>
  readdirSync(`${PAGES}/${area}`).map((file) => ({
    id: `${area}/${file.replace('.md', '')}`,
    text: readFileSync(`${PAGES}/${area}/${file}`, 'utf8'),
  })),
);

const shown = fixtures().flatMap(({ folder, bad }) =>
  bad.flatMap((file) => shownIn(`${folder}/${file}`, readMarked(readFixture(folder, file)).text)),
);

describe('the sources of rules and figures', () => {
  const sources = [...rules, ...figures].flatMap(({ id, source }) => (source ? [{ id, source }] : []));

  it('are named with their edition, or as not at hand', () => {
    expect(sources.length).toBeGreaterThan(250);
    expect(sources.filter(({ source }) => NAMED.test(source) && !DATED.test(source))).toEqual([]);
  });
});

describe('the page of every rule', () => {
  it('is there', () => {
    expect(pages.map(({ id }) => id).toSorted()).toEqual(rules.map(({ id }) => id as string).toSorted());
  });

  it.each(['Why', 'What to look at', 'How it is repaired', 'Example', 'If you accept it', 'Source'])(
    'has a part "%s"',
    (heading) => {
      const without = pages.filter(({ text }) => !new RegExp(`^## ${heading}`, 'm').test(text));
      expect(without.map(({ id }) => id)).toEqual([]);
    },
  );

  it('warns of what can hurt, where work on the car can', () => {
    const onPaper = /^(plan|paper)\//;
    const silent = pages.filter(({ id, text }) => !onPaper.test(id) && !/^## Caution\n\n- /m.test(text));
    expect(silent.map(({ id }) => id)).toEqual([]);
  });

  it('has no two parts of one title', () => {
    const doubled = pages.filter(({ text }) => {
      const headings = text.match(/^#+ .*$/gm) ?? [];
      return new Set(headings).size < headings.length;
    });
    expect(doubled.map(({ id }) => id)).toEqual([]);
  });
});

describe('what the rules say of a sheet', () => {
  it('is there', () => {
    expect(shown.length).toBeGreaterThan(500);
  });

  it('has no unit of the inside', () => {
    expect(shown.filter(({ text }) => /\d (Pa|kg\/s|m\^3\/s|m\^2|K|W\/m)\b/.test(text))).toEqual([]);
  });

  it('has no digit that nobody knows: a number with more than three comes from the sheet or tells a side of a limit', () => {
    const long = shown.flatMap(({ at, text, sheet }) =>
      [...text.matchAll(/(?<![\d.])\d+\.\d+(?![\d.])/g)].flatMap(([number = '']) => {
        const figures = number.replace('.', '').replace(/^0+/, '').length;
        return figures > 3 && !sheet.includes(number) ? [{ at, text, number }] : [];
      }),
    );
    const onEdge = /(over|under|against|needs|more than|above|below|of its|gives|where|to;) /;
    expect(long.filter(({ text }) => !onEdge.test(text))).toEqual([]);
  });

  it('names the size of an injector at the pressure it holds for', () => {
    const sizes = shown.filter(({ text }) =>
      /injectors? (of|for|flow) \d[\d.]* (lb\/h|cc\/min|cm\^3\/min|g\/min|kg\/h)/i.test(text),
    );
    expect(sizes.length).toBeGreaterThan(20);
    expect(sizes.filter(({ text }) => !/(lb\/h|\/min|kg\/h) at \d/.test(text))).toEqual([]);
  });

  it('has one idea a sentence: none of more than forty words', () => {
    const sentences = shown.flatMap(({ at, text }) => text.split(/(?<=[.?!]) (?=[A-Z])/).map((one) => ({ at, one })));
    expect(sentences.filter(({ one }) => one.split(/\s+/).length > 40)).toEqual([]);
  });

  it('tells a throttle body or injectors that are too large once', () => {
    const size = new Set(['throttle-body/airflow-far-too-large', 'throttle-body/power-below-range', 'plan/overbuilt']);
    const byPart = new Map<string, Set<string>>();
    for (const { at, rule, field } of shown) {
      if (!size.has(rule) || !field.startsWith('throttle-body')) continue;
      byPart.set(at, (byPart.get(at) ?? new Set()).add(rule));
    }
    expect(byPart.size).toBeGreaterThan(3);
    expect([...byPart].filter(([, told]) => told.size > 1)).toEqual([]);
  });
});

describe('what is only bookkeeping', () => {
  const SAFETY = ['paper/no-extinguisher', 'paper/no-pressure-test', 'paper/no-road-use-notice'];

  it('is a hint or an information, but for what can hurt or is the law', () => {
    const loud = rules.filter(({ id, severity }) => id.startsWith('paper/') && /error|warning/.test(severity));
    expect(loud.map(({ id }) => id as string).toSorted()).toEqual(SAFETY);
  });

  it('tells once, as information and without a repair, that the owner does the work', () => {
    const own = shownIn('own', 'format: 2\nhandover: { fuel-work: owner, electrical-work: owner }\n').filter(
      ({ rule }) => rule === 'paper/work-by-owner',
    );
    expect(own).toHaveLength(1);
    expect(own[0]?.text).toMatch(/fuel and electrical work\. Ask the local authority/);
  });
});
