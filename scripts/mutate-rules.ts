/**
 * Mutation check of the rule book: takes away each condition of each rule in turn and looks whether a fixture, a sample or
 * the compiler notices. `npx tsx scripts/mutate-rules.ts [area/rule ...]` prints the conditions nothing depends on and exits with 1.
 */
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { transform } from 'esbuild';
import ts from 'typescript';
import { checkText } from '../server/src/checking/checked.ts';
import type { Rule } from '../server/src/checking/rule.ts';
import { situationsOf } from '../server/src/checking/situation.ts';
import { Watch } from '../server/src/checking/watch.ts';
import { noHouse } from '../server/src/sheet/house.ts';
import { fixtures, readFixture, readMarked } from '../tests/rules/fixture.ts';

type Mutation = { start: number; end: number; text: string; told: string };

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

const plans = texts.map((text) => {
  const { plan } = checkText(text, noHouse);
  return situationsOf(plan, noHouse, { current: new Watch() });
});

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
mkdirSync('node_modules/.cache', { recursive: true });

/** The rule of a file with other contents, as it would run, over the same nodes: a node stands for itself alone. */
async function ruleFrom(path: string, contents: string): Promise<Rule> {
  const outfile = resolve('node_modules/.cache', `rule-mutant-${process.pid}-${bundles++}.mjs`);
  const { code } = await transform(contents, { loader: 'ts', format: 'esm' });
  const here = pathToFileURL(path);
  writeFileSync(
    outfile,
    code.replaceAll(/ from "(\.[^"]+)"/g, (_, target: string) => ` from "${new URL(target, here)}"`),
  );
  const { rule } = (await import(pathToFileURL(outfile).href)) as { rule: Rule };
  rmSync(outfile);
  return rule;
}

/** What a rule says of every stage and plan of the texts; a throw counts as a result of its own. */
function resultOf(rule: Rule): string {
  try {
    if ('check' in rule) return JSON.stringify(plans.flat().map((situation) => rule.check(situation)));
    return 'checkPlan' in rule ? JSON.stringify(plans.map((plan) => rule.checkPlan(plan))) : '';
  } catch (error) {
    return String(error);
  }
}

const config = ts.parseJsonConfigFileContent(ts.readConfigFile('tsconfig.json', ts.sys.readFile).config, ts.sys, '.');
const mutants = new Map<string, { contents: string; version: number }>();
const service = ts.createLanguageService({
  getCompilationSettings: () => config.options,
  getCurrentDirectory: () => process.cwd(),
  getDefaultLibFileName: ts.getDefaultLibFilePath,
  getScriptFileNames: () => config.fileNames,
  getScriptVersion: (path) => String(mutants.get(path)?.version ?? 0),
  getScriptSnapshot: (path) => {
    const contents = mutants.get(path)?.contents ?? ts.sys.readFile(path);
    return contents === undefined ? undefined : ts.ScriptSnapshot.fromString(contents);
  },
  fileExists: ts.sys.fileExists,
  readFile: ts.sys.readFile,
});

/** Whether the type check notices: a guard for a value that may be missing is held by the compiler, not by a sheet. */
function isRefusedByCompiler(path: string, contents: string): boolean {
  const version = (mutants.get(path)?.version ?? 0) + 1;
  mutants.set(path, { contents, version });
  return service.getSemanticDiagnostics(path).length > 0;
}

let survived = 0;
let tried = 0;
for (const area of readdirSync(RULES, { withFileTypes: true }).filter((entry) => entry.isDirectory())) {
  for (const file of readdirSync(join(RULES, area.name))) {
    const id = `${area.name}/${file.replace('.ts', '')}`;
    if (wanted.length && !wanted.includes(id)) continue;
    const path = resolve(RULES, area.name, file);
    const source = readFileSync(path, 'utf8');
    const expected = resultOf(await ruleFrom(path, source));
    for (const { start, end, text, told } of mutationsOf(source)) {
      tried++;
      const contents = source.slice(0, start) + text + source.slice(end);
      if (resultOf(await ruleFrom(path, contents)) !== expected) continue;
      if (isRefusedByCompiler(path, contents)) continue;
      survived++;
      console.log(`${id}:${told}: no fixture notices`);
    }
  }
}
console.log(`${tried - survived} passed, ${survived} failed`);
process.exitCode = survived ? 1 : 0;
