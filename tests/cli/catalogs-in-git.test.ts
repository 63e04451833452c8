import { mkdirSync, readFileSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { folderWith, program } from './program.ts';
import { git, repository } from './repository.ts';

const [RULES, SHELF, WAGON] = ['build-sheet.config.yaml', 'shelf.parts.yaml', 'shelf-wagon.build.yaml'].map((name) =>
  readFileSync(`samples/counter/${name}`, 'utf8'),
) as [string, string, string];

const SHOP = {
  'shop/build-sheet.config.yaml': RULES,
  'shop/shelf.parts.yaml': SHELF,
  'shop/wagon.build.yaml': WAGON,
};

/** A text with one thing in it changed. */
function changed(text: string, from: string, to: string): string {
  expect(text).toContain(from);
  return text.replace(from, to);
}

/** The pump that the wagon's kit brings, and the shelf with one that gives a third of it. */
const [PUMP = ''] = /^ +- id: tank-pump-236\n[\s\S]*?(?=^ +- id)/m.exec(SHELF) ?? [];
const WEAKER = changed(
  SHELF,
  PUMP,
  PUMP.replaceAll(/(\d+) L\/h/g, (_, flow) => `${Math.round(Number(flow) / 3)} L/h`),
);

async function compared(cwd: string, ...args: string[]) {
  const { code, out, complaints } = await program(['compare', ...args], { cwd });
  expect({ code, complaints }).toEqual({ code: 0, complaints: '' });
  return out;
}

async function since(cwd: string): Promise<string[]> {
  const { out, complaints } = await program(['check', '-f', 'concise', '--since', 'HEAD'], { cwd });
  expect(complaints).toBe('');
  return [...out.matchAll(/^(\S+?):\d+:\d+: (\w+) ([\w/-]+)/gm)].map(([, file, severity, rule]) =>
    [file, severity, rule].join(' '),
  );
}

describe('a catalog in a git state', () => {
  it('is read as it was: a part that the catalog has lost or lessened since is what is new', async () => {
    const cwd = repository(SHOP);
    expect(await since(cwd)).toEqual([]);
    writeFileSync(join(cwd, 'shop/shelf.parts.yaml'), WEAKER);
    expect(await since(cwd)).toContain('shop/wagon.build.yaml error fuel-supply/pump-flow-short');
    writeFileSync(join(cwd, 'shop/shelf.parts.yaml'), SHELF.replaceAll('hose-8', 'hose-9'));
    expect((await since(cwd)).filter((line) => line.includes('wagon'))).not.toEqual([]);
  });

  it('is looked for among the files of that state, also under a name that is no longer there', async () => {
    const cwd = repository(SHOP);
    mkdirSync(join(cwd, 'shop/bought'));
    renameSync(join(cwd, 'shop/shelf.parts.yaml'), join(cwd, 'shop/bought/all.parts.yaml'));
    writeFileSync(join(cwd, 'shop/build-sheet.config.yaml'), changed(RULES, "'*.parts.yaml'", "'bought/*.parts.yaml'"));
    expect(await since(cwd)).toEqual([]);
    expect(await compared(cwd, 'HEAD')).toContain('No difference');
    git(cwd, 'add', '-A');
    git(cwd, 'commit', '-q', '-m', 'moved');
    rmSync(join(cwd, 'shop'), { recursive: true });
    expect(await compared(cwd, 'HEAD~1:shop', 'HEAD:shop')).toContain('No difference');
  });

  it('is read from the disk where it is outside the work tree', async () => {
    const top = folderWith({ 'all.parts.yaml': SHELF });
    const rules = changed(RULES, "'*.parts.yaml'", "'../../all.parts.yaml'");
    const cwd = join(top, 'repository');
    mkdirSync(join(cwd, 'shop'), { recursive: true });
    writeFileSync(join(cwd, 'shop/build-sheet.config.yaml'), rules);
    writeFileSync(join(cwd, 'shop/wagon.build.yaml'), WAGON);
    git(cwd, 'init', '-q', '-b', 'main');
    git(cwd, 'add', '-A');
    git(cwd, 'commit', '-q', '-m', 'first');
    expect(await since(cwd)).toEqual([]);
    expect(await compared(cwd, 'HEAD')).toContain('No difference');
  });

  it('holds with house rules that are a link within the state', async () => {
    const cwd = repository({
      'rules/shop.yaml': RULES,
      'shop/shelf.parts.yaml': SHELF,
      'shop/wagon.build.yaml': WAGON,
    });
    symlinkSync('../rules/shop.yaml', join(cwd, 'shop/build-sheet.config.yaml'));
    git(cwd, 'add', '-A');
    git(cwd, 'commit', '-q', '-m', 'link');
    expect(await since(cwd)).toEqual([]);
  });
});

describe('build-sheet compare, over catalogs', () => {
  it('names the part by its id that moved figures and brought findings, and what changed of it', async () => {
    const cwd = repository(SHOP);
    writeFileSync(join(cwd, 'shop/shelf.parts.yaml'), WEAKER);
    const out = await compared(cwd, 'HEAD');
    expect(out).toMatch(/^shop\/wagon\.build\.yaml: .*\n\nWorse: /);
    expect(out).toContain('fuel-supply/pump-flow-short');
    expect(out.replaceAll(/\s+/g, ' ')).toMatch(
      /part tank-pump-236 of the catalog: flow-at \[\[28 psi, 266 L\/h\].* -> \[\[28 psi, 89 L\/h\].*: brings .*pump-flow-short/,
    );
    const [sheet] = JSON.parse(await compared(cwd, 'HEAD', '-f', 'json')).sheets;
    expect(sheet.causes).toHaveLength(1);
    expect(sheet.causes[0].changes).toMatchObject([
      { kind: 'part', name: 'tank-pump-236', field: 'flow-at', after: expect.stringContaining('[28 psi, 89 L/h]') },
    ]);
    const validate = new Ajv().compile(JSON.parse(readFileSync('schemas/output/compare.schema.json', 'utf8')));
    validate(JSON.parse(await compared(cwd, 'HEAD', '-f', 'json')));
    expect(validate.errors ?? []).toEqual([]);
  });

  it('tells a part that is replaced by the field that names it, whatever the catalog has lost', async () => {
    const cwd = repository(SHOP);
    writeFileSync(
      join(cwd, 'shop/wagon.build.yaml'),
      changed(WAGON, 'coil: { use: coil-28 }', 'coil: { use: coil-45 }'),
    );
    writeFileSync(join(cwd, 'shop/shelf.parts.yaml'), changed(SHELF, '- id: coil-28', '- id: coil-29'));
    const out = (await compared(cwd, 'HEAD')).replaceAll(/\s+/g, ' ');
    expect(out).toMatch(/- ignition\.coil\.use coil-28 -> coil-45: (?!.*only together)/);
    expect(out).not.toContain('of the catalog');
  });

  it('tells a kit that brings another part, and one that has no effect on this sheet', async () => {
    const cwd = repository(SHOP);
    writeFileSync(join(cwd, 'shop/shelf.parts.yaml'), changed(SHELF, 'pump: tank-pump-236', 'pump: tank-pump-193'));
    const out = (await compared(cwd, 'HEAD')).replaceAll(/\s+/g, ' ');
    expect(out).toMatch(/kit street-supply of the catalog: brings\.pump tank-pump-236 -> tank-pump-193: /);
    writeFileSync(join(cwd, 'shop/shelf.parts.yaml'), changed(SHELF, 'coil for a module', 'coil, plain'));
    expect(await compared(cwd, 'HEAD')).toMatch(/No (effect|difference)/);
  });

  it('refuses a catalog by itself, in one line', async () => {
    const cwd = repository(SHOP);
    expect(await program(['compare', 'HEAD', 'shop/shelf.parts.yaml'], { cwd })).toMatchObject({
      code: 2,
      complaints:
        'build-sheet: shop/shelf.parts.yaml: this is a catalog, no build sheet; compare the folder of its sheets.\n',
    });
  });
});
