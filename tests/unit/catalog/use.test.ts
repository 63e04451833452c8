import { describe, expect, it } from 'vitest';
import { HOUSE, onDisk, open, PARTS, SHEET, shop } from './shop.ts';

const catalog = `format: 1
quoted: 2026-05-02
parts:
  - id: heron-58
    name: Heron in-tank
    cost: 214.5
    stock: 3
    pump: { placement: in-tank, flow-at: [[40 psi, 150 L/h], [60 psi, 120 L/h]], rated-voltage: 13.5 V, current: 9 A, relief-pressure: 50 psi }
  - id: dune-58
    cost: 61
    regulator: { pressure: 58 psi, style: bypass, reference: atmosphere }
  - { id: tall-4, stock: 0, regulator: { pressure: 43.5 psi, style: bypass } }
  - { id: loon-1, cost: 90, pump: { placement: in-tank, flow-at: [[40 psi, 250 L/h], [60 psi, 220 L/h]] } }
kits:
  - { id: fuel-kit, brings: { pump: heron-58, regulator: dune-58 } }
  - { id: round-a, kits: [round-b] }
  - { id: round-b, kits: [round-a] }
`;

const sheet = (fuelSystem: string, rest = '') =>
  `format: 1\nengine: { cylinders: 8, displacement: 5 L }\nfuel: { grade: gasoline }\nstages: [{ name: now, power: 300 hp, induction: natural }]\n${rest}fuel-system:\n${fuelSystem}`;

/** What is told of catalogs in a sheet, each with the text it is marked at. */
function told(text: string, catalogs: Record<string, string> = { [PARTS]: catalog }) {
  const service = shop(catalogs);
  open(service, SHEET, text);
  const own = service.diagnose(SHEET).filter(({ code }) => code.startsWith('catalog/'));
  return own.map(({ code, message, range }) => ({ code, message, at: text.slice(range.start, range.end) }));
}

describe('a part taken over from a catalog', () => {
  it('counts as if its fields stood in the sheet, and a finding stands at its id with the catalog beside it', () => {
    const service = shop({ [PARTS]: catalog });
    const text = sheet('  pump: { use: heron-58 } # from the counter\n  regulator: { pressure: 58 psi }\n');
    open(service, SHEET, text);
    const short = service.diagnose(SHEET).find(({ found }) => found === 'fuel-supply/relief-under-rail');
    expect(short && text.slice(short.range.start, short.range.end)).toBe('heron-58');
    const [related] = short?.related ?? [];
    expect(related?.place.uri).toBe(PARTS);
    expect(catalog.slice(related?.place.range.start, related?.place.range.end)).toBe('50 psi');
  });

  it('says nothing where it is in order', () => {
    expect(told(sheet('  pump: { use: heron-58, quantity: 2 }\n'))).toEqual([]);
  });

  it('offers the nearest id for one that no catalog has', () => {
    expect(told(sheet('  pump: { use: heron-85 }\n'))).toEqual([
      {
        code: 'catalog/unknown-part',
        message: 'No catalog has a part "heron-85"; did you mean "heron-58"?',
        at: 'heron-85',
      },
    ]);
  });

  it.each([
    ['  pump: { use: dune-58 }\n', 'catalog/wrong-kind', '"dune-58" is a regulator, not a pump.', 'dune-58'],
    [
      '  pump: { use: heron-58, current: 9.0 A }\n',
      'catalog/override-without-effect',
      '"current" says what "heron-58" says already.',
      '9.0 A',
    ],
    ['  regulator: { use: tall-4 }\n', 'catalog/out-of-stock', '"tall-4" is not in stock.', 'tall-4'],
    ['  regulator: { use: tall-4 }\n', 'catalog/cost-missing', '"tall-4" has no price.', 'tall-4'],
  ])('tells %s', (fields, code, message, at) => {
    expect(told(sheet(fields))).toContainEqual({ code, message, at });
  });

  it('tells an old price', () => {
    const old = catalog.replace('2026-05-02', '2025-05-02');
    expect(told(sheet('  pump: { use: heron-58 }\n'), { [PARTS]: old })).toEqual([
      {
        code: 'catalog/price-old',
        message: 'The price of "heron-58" is of 2025-05-02, 395 days ago: ask again.',
        at: 'heron-58',
      },
    ]);
  });

  it('with an old price is no error in the count of what is wrong', () => {
    const service = shop({ [PARTS]: catalog.replace('2026-05-02', '2025-05-02') });
    open(service, SHEET, sheet('  pump: { use: heron-58, current: 9.0 A }\n'));
    const codes = service.diagnose(SHEET).map(({ code, severity }) => `${severity} ${code}`);
    expect(codes).toContain('information catalog/price-old');
    expect(codes).toContain('hint catalog/override-without-effect');
    const errors = codes.filter((code) => code.startsWith('error '));
    expect(service.verdict(SHEET)).toMatchObject({ errors: errors.length });
  });

  it('tells a kit that holds itself, and one that no catalog has', () => {
    expect(told(sheet('  pump: {}\n', 'kits: [round-a, full-kit]\n'))).toEqual([
      {
        code: 'catalog/kit-cycle',
        message: 'Kit "round-a" holds itself: "round-a" holds "round-b" holds "round-a".',
        at: 'round-a',
      },
      {
        code: 'catalog/unknown-kit',
        message: 'No catalog has a kit "full-kit"; did you mean "fuel-kit"?',
        at: 'full-kit',
      },
    ]);
  });

  it('comes by a kit, and what the sheet says itself wins', () => {
    const service = shop({ [PARTS]: catalog });
    const codes = (text: string) => {
      open(service, SHEET, text);
      const found = service.diagnose(SHEET).find((one) => one.found === 'fuel-supply/relief-under-rail');
      return found && text.slice(found.range.start, found.range.end);
    };
    expect(codes(sheet('  tank: {}\n', 'kits: [fuel-kit]\n'))).toBe('fuel-kit');
    expect(codes(sheet('  regulator: { pressure: 43.5 psi }\n', 'kits: [fuel-kit]\n'))).toBeUndefined();
  });

  it('is given up with all its fields where a stage names another one', () => {
    const service = shop({ [PARTS]: catalog });
    const stages =
      'stages: [{ name: now, power: 300 hp }, { name: later, power: 310 hp, changes: { fuel-system: { pump: { use: loon-1 } } } }]\n';
    const text = sheet('  pump: { use: heron-58 }\n  regulator: { pressure: 58 psi }\n').replace(/stages:.*\n/, stages);
    open(service, SHEET, text);
    const found = service.diagnose(SHEET).find((one) => one.found === 'fuel-supply/relief-under-rail');
    expect(found?.message).toMatch(/50 psi/);
    expect(service.diagnose(SHEET).filter((one) => one.message.includes('later') && one === found)).toEqual([]);
    const stagesOfFinding = service.told(SHEET).find((one) => one.found === 'fuel-supply/relief-under-rail')?.stages;
    expect(stagesOfFinding).toEqual(['now']);
  });
});

describe('a catalog that changes', () => {
  it('is checked again with the sheets that use what has changed, and only those', () => {
    let checks = 0;
    const counting = {
      id: 'fuel-supply/relief-under-rail',
      title: '',
      severity: 'error',
      why: '',
      inspect: '',
      remedy: '',
      source: '',
      checkPlan: (plan: readonly { values: { 'fuel-system'?: { pump?: { current?: unknown } } } }[]) => {
        checks++;
        void plan[0]?.values['fuel-system']?.pump?.current;
        return undefined;
      },
    } as const;
    const service = shop({ [PARTS]: catalog }, [counting]);
    open(service, SHEET, sheet('  pump: { use: heron-58 }\n'));
    service.diagnose(SHEET);
    open(service, PARTS, catalog);
    service.diagnose(SHEET);
    open(service, PARTS, catalog.replace('cost: 61', 'cost: 71'), 2);
    service.diagnose(SHEET);
    expect(checks).toBe(1);
    open(service, PARTS, catalog.replace('current: 9 A', 'current: 19 A'), 3);
    service.diagnose(SHEET);
    expect(checks).toBe(2);
  });

  it('may be deleted, and come back under another name', () => {
    const service = shop({ [PARTS]: catalog });
    open(service, SHEET, sheet('  pump: { use: heron-58 }\n'));
    const codes = () => service.diagnose(SHEET).flatMap(({ code }) => (code.startsWith('catalog/') ? code : []));
    expect(codes()).toEqual([]);
    onDisk(service, { [PARTS]: undefined });
    expect(codes()).toEqual(['catalog/unreadable', 'catalog/unknown-part']);
    onDisk(service, { [PARTS.replace('counter', 'shelf')]: catalog });
    expect(codes()).toEqual([]);
    onDisk(service, { [HOUSE]: 'currency: USD\n' });
    expect(codes()).toEqual(['catalog/unknown-part']);
  });

  it('tells an id that two catalogs give', () => {
    const other = PARTS.replace('counter', 'other');
    const found = told(sheet('  pump: { use: heron-58 }\n'), { [PARTS]: catalog, [other]: catalog });
    expect(found).toEqual([
      {
        code: 'catalog/double-id',
        message: '2 parts of the catalogs are called "heron-58"; the first is taken.',
        at: 'heron-58',
      },
    ]);
  });
});

describe('a catalog that is open', () => {
  const inCatalog = (text: string) => {
    const service = shop({});
    open(service, PARTS, text);
    return service.diagnose(PARTS).map(({ code, message, range }) => ({
      code,
      message,
      at: text.slice(range.start, range.end),
    }));
  };

  it('is checked like a sheet', () => {
    expect(inCatalog('format: 1\nparts:\n  - { id: a-1, pump: { placment: in-tank } }\n')).toEqual([
      {
        code: 'sheet/unknown-field',
        message: '"placment" is not a field of "pump"; did you mean "placement"?',
        at: 'placment',
      },
    ]);
  });

  it('has parts that say what they are, once', () => {
    expect(
      inCatalog(
        'format: 1\nparts:\n  - { id: a-1, cost: 3 }\n  - { id: a-1, pump: { cost: 4 } }\n  - { id: a-2, pump: {}, filter: {} }\n',
      ).map(({ code, at }) => ({ code, at })),
    ).toEqual([
      { code: 'catalog/kind-missing', at: 'a-1' },
      { code: 'catalog/field-out-of-place', at: 'cost' },
      { code: 'catalog/kind-missing', at: 'filter' },
      { code: 'catalog/double-id', at: 'a-1' },
    ]);
  });

  it('tells kits that hold one another', () => {
    expect(inCatalog(catalog).map(({ code, at }) => ({ code, at }))).toEqual([
      { code: 'catalog/kit-cycle', at: 'round-a' },
      { code: 'catalog/kit-cycle', at: 'round-b' },
    ]);
  });
});
