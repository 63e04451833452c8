/**
 * Mutation check of the rule book: takes away each condition of each rule in turn and looks whether a fixture or a sample
 * notices. `npx tsx scripts/mutate-rules.ts [area/rule ...]` prints the conditions nothing depends on and exits with 1.
 */
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import ts from 'typescript';
import { fixtures, readFixture, readMarked } from '../tests/rules/fixture.ts';

type Mutation = { start: number; end: number; text: string; told: string };
type Core = typeof import('../server/src/rules/checked.ts');

const RULES = 'server/src/rules';
const wanted = process.argv.slice(2);
const texts = [
  ...fixtures().flatMap(({ folder, bad, good }) =>
    [...bad, ...good].map((file) => readMarked(readFixture(folder, file)).text),
  ),
  ...readdirSync('samples')
    .filter((file) => file.endsWith('.build.yaml'))
    .map((file) => readFileSync(`samples/${file}`, 'utf8')),
];

/** Every `if` whose condition can be taken away, and every operand of `&&` and `||` that can be left out. */
function mutationsOf(source: string): Mutation[] {
  const file = ts.createSourceFile('rule.ts', source, ts.ScriptTarget.Latest, true);
  const found: Mutation[] = [];
  const add = (node: ts.Node, text: string) => {
    const { line } = file.getLineAndCharacterOfPosition(node.getStart());
    found.push({
      start: node.getStart(),
      end: node.getEnd(),
      text,
      told: `${line + 1}: \`${node.getText()}\` as ${text}`,
    });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isIfStatement(node)) add(node.expression, 'false');
    if (ts.isBinaryExpression(node) && isCondition(node)) {
      const neutral = node.operatorToken.kind === ts.SyntaxKind.AmpersandAmpersandToken ? 'true' : 'false';
      add(node.left, neutral);
      add(node.right, neutral);
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

/** An `&&` or `||` that decides something, not one that stands for a missing value. */
function isCondition(node: ts.BinaryExpression): boolean {
  const { kind } = node.operatorToken;
  if (kind !== ts.SyntaxKind.AmpersandAmpersandToken && kind !== ts.SyntaxKind.BarBarToken) return false;
  let outer: ts.Node = node;
  while (
    ts.isBinaryExpression(outer.parent) ||
    ts.isParenthesizedExpression(outer.parent) ||
    ts.isPrefixUnaryExpression(outer.parent)
  )
    outer = outer.parent;
  const { parent } = outer;
  return (
    (ts.isIfStatement(parent) && parent.expression === outer) ||
    (ts.isConditionalExpression(parent) && parent.condition === outer)
  );
}

let bundles = 0;

/** What all texts give with one file replaced; a throw counts as a result of its own. */
async function resultWith(path: string, contents: string): Promise<string> {
  const outfile = resolve('node_modules/.cache', `rule-mutant-${process.pid}-${bundles++}.mjs`);
  await build({
    entryPoints: ['server/src/rules/checked.ts'],
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    outfile,
    logLevel: 'silent',
    plugins: [
      {
        name: 'mutant',
        setup: ({ onLoad }) =>
          onLoad({ filter: /\.ts$/ }, (args) => (args.path === path ? { contents, loader: 'ts' } : undefined)),
      },
    ],
  });
  const core = (await import(pathToFileURL(outfile).href)) as Core;
  rmSync(outfile);
  try {
    return JSON.stringify(
      texts.map((text) =>
        core.checkText(text, {}).findings.map(({ rule, message, range, repairs }) => [rule, message, range, repairs]),
      ),
    );
  } catch (error) {
    return String(error);
  }
}

const expected = await resultWith('', '');
let survived = 0;
let tried = 0;
for (const area of readdirSync(RULES, { withFileTypes: true }).filter((entry) => entry.isDirectory())) {
  for (const file of readdirSync(join(RULES, area.name))) {
    const id = `${area.name}/${file.replace('.ts', '')}`;
    if (wanted.length && !wanted.includes(id)) continue;
    const path = resolve(RULES, area.name, file);
    const source = readFileSync(path, 'utf8');
    for (const { start, end, text, told } of mutationsOf(source)) {
      tried++;
      if ((await resultWith(path, source.slice(0, start) + text + source.slice(end))) !== expected) continue;
      survived++;
      console.log(`${id}:${told}: no fixture notices`);
    }
  }
}
console.log(`${tried - survived} passed, ${survived} failed`);
process.exitCode = survived ? 1 : 0;
