import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { folderWith, program } from './program.ts';
import { git, repository } from './repository.ts';

const WAGON = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
const PLAN = readFileSync('samples/overreach-roadster.build.yaml', 'utf8');
const POINTS = WAGON.replace('trigger: magnetic-pickup', 'trigger: contact-points');
const LARGER = PLAN.replace('62 lb/h', '115 lb/h');

const validate = new Ajv({ allErrors: true }).compile(
  JSON.parse(readFileSync('schemas/output/compare.schema.json', 'utf8')),
);

/** A shop whose work tree differs from its last commit. */
function shop(): string {
  const cwd = repository({ 'shop/wagon.build.yaml': WAGON, 'shop/plan.build.yaml': PLAN, 'old.build.yaml': POINTS });
  writeFileSync(join(cwd, 'shop/wagon.build.yaml'), POINTS);
  writeFileSync(join(cwd, 'shop/plan.build.yaml'), LARGER);
  git(cwd, 'mv', 'old.build.yaml', 'renamed.build.yaml');
  writeFileSync(join(cwd, 'new.build.yaml'), 'format: 1\nignition: { trigger: contact-points }\n');
  return cwd;
}

describe('build-sheet compare', () => {
  it.each(['text', 'markdown', 'json', 'html'])('writes %s', async (format) => {
    const { code, out, complaints } = await program(['compare', 'HEAD', '-f', format], { cwd: shop() });
    expect({ code, complaints }).toEqual({ code: 0, complaints: '' });
    if (format !== 'json') {
      expect(out).toMatchSnapshot();
      return;
    }
    validate(JSON.parse(out));
    expect(validate.errors ?? []).toEqual([]);
  });

  it.each([
    ['a file at HEAD and now', ['HEAD', 'shop/wagon.build.yaml']],
    ['a file of a state by its path from the top', ['HEAD:shop/wagon.build.yaml', 'shop/wagon.build.yaml']],
    ['a file of a state by its path from here', ['HEAD:./shop/wagon.build.yaml', 'shop/wagon.build.yaml']],
  ])('compares %s', async (_, operands) => {
    const { out } = await program(['compare', ...operands], { cwd: shop() });
    expect(out).toMatch(/^shop\/wagon\.build\.yaml: Quarry wagon, 4\.9 liter\n\nWorse: 1 new error/);
  });

  it('compares two files whatever they are called, and two folders by the names in them', async () => {
    const cwd = folderWith({
      'a/x.build.yaml': WAGON,
      'b/x.build.yaml': WAGON,
      'b/y.build.yaml': PLAN,
      'z.txt': POINTS,
    });
    expect((await program(['compare', 'a/x.build.yaml', 'b/x.build.yaml'], { cwd })).out).toContain('No difference.');
    expect((await program(['compare', 'a', 'b'], { cwd })).out).toMatch(/^2 sheets: 1 added, 1 same\./);
    expect((await program(['compare', 'a/x.build.yaml', 'z.txt'], { cwd })).out).toContain('Worse: 1 new error');
  });

  it('compares two states of git from a folder below', async () => {
    const cwd = shop();
    git(cwd, 'add', '-A');
    git(cwd, 'commit', '-q', '-m', 'second');
    const { out } = await program(['compare', 'HEAD~1', 'HEAD'], { cwd: join(cwd, 'shop') });
    expect(out).toMatch(/^2 sheets: 1 worse, 1 better\./);
  });

  it('takes house rules as they were in each state', async () => {
    const cwd = repository({ 'one.build.yaml': WAGON });
    writeFileSync(join(cwd, 'build-sheet.config.yaml'), 'limits: { largest-duty: 50 % }\n');
    const { out } = await program(['compare', 'HEAD'], { cwd });
    expect(out).toMatch(/beyond (its|their) limit now/);
    expect(out).toContain('the house rules: ');
  });

  it.each([
    [['HEAD', '--fail-on', 'error'], 1],
    [['HEAD', 'shop/plan.build.yaml', '--fail-on', 'hint'], 0],
    [['HEAD'], 0],
  ])('%j ends with %i', async (args, code) => {
    expect((await program(['compare', ...args], { cwd: shop() })).code).toBe(code);
  });

  it.each([
    [[], /compare takes two/],
    [['a', 'b', 'c'], /compare takes two/],
    [['nowhere'], /there is no file, folder or git revision "nowhere"/],
    [['--', '--output=evil'], /there is no file, folder or git revision "--output=evil"/],
    [['HEAD:shop', 'shop/wagon.build.yaml'], /a sheet is compared with a sheet/],
  ])('tells what is wrong with %j in one line', async (args, message) => {
    const cwd = shop();
    const { code, complaints, out } = await program(['compare', ...args], { cwd });
    expect(complaints + out).toMatch(message);
    expect(code === 2 || out !== '').toBe(true);
    expect(existsSync(join(cwd, 'evil'))).toBe(false);
  });

  it('shows texts of a sheet as texts', async () => {
    const cwd = repository({ 'one.build.yaml': WAGON });
    writeFileSync(join(cwd, 'one.build.yaml'), POINTS.replace('Quarry wagon', '<img src=x> **bold** [a](http://b)'));
    const markdown = await program(['compare', 'HEAD', '-f', 'markdown'], { cwd });
    expect(markdown.out).not.toMatch(/(?<!\\)<img|(?<!\\)\[a/);
    const html = await program(['compare', 'HEAD', '-f', 'html'], { cwd });
    expect(html.out).not.toContain('<img');
  });
});
