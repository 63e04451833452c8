import ts from 'typescript';

/** A change of a source that a test should notice: a stretch of it and what stands there instead. */
export type Mutation = { start: number; end: number; text: string; told: string; line: number };

const { SyntaxKind: Kind } = ts;

/** What an operator is flipped to. */
const FLIPS: Partial<Record<ts.SyntaxKind, string>> = {
  [Kind.LessThanToken]: '<=',
  [Kind.LessThanEqualsToken]: '<',
  [Kind.GreaterThanToken]: '>=',
  [Kind.GreaterThanEqualsToken]: '>',
  [Kind.EqualsEqualsEqualsToken]: '!==',
  [Kind.ExclamationEqualsEqualsToken]: '===',
  [Kind.PlusToken]: '-',
  [Kind.MinusToken]: '+',
  [Kind.AsteriskToken]: '/',
  [Kind.SlashToken]: '*',
  [Kind.AmpersandAmpersandToken]: '||',
  [Kind.BarBarToken]: '&&',
};

/** Every flip, drop and swap in a source. */
export function mutationsOf(source: string): Mutation[] {
  const file = ts.createSourceFile('source.ts', source, ts.ScriptTarget.Latest, true);
  const found: Mutation[] = [];
  const replace = (start: number, end: number, text: string) => {
    const line = file.getLineAndCharacterOfPosition(start).line + 1;
    const was = source.slice(start, end).replaceAll(/\s+/g, ' ').slice(0, 60);
    found.push({ start, end, text, line, told: text === '' ? `without ${was}` : `${was} as ${text.slice(0, 60)}` });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isTypeNode(node) || ts.isImportDeclaration(node)) return;
    if (ts.isBinaryExpression(node)) flip(node, replace);
    if (node.kind === Kind.TrueKeyword) replace(node.getStart(), node.end, 'false');
    if (node.kind === Kind.FalseKeyword) replace(node.getStart(), node.end, 'true');
    if (ts.isExpressionStatement(node)) replace(node.getStart(), node.end, ';');
    if (ts.isIfStatement(node) && !node.elseStatement) replace(node.getStart(), node.end, ';');
    if (ts.isSpreadAssignment(node) || ts.isSpreadElement(node)) dropItem(node, replace, source);
    if (ts.isCallExpression(node)) call(node, replace);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

type Replace = (start: number, end: number, text: string) => void;

function flip({ left, operatorToken }: ts.BinaryExpression, replace: Replace): void {
  const text = FLIPS[operatorToken.kind];
  const joinsText = operatorToken.kind === Kind.PlusToken && ts.isStringLiteralLike(left);
  if (text && !joinsText) replace(operatorToken.getStart(), operatorToken.end, text);
}

/** An item of a list or an object with the comma behind it. */
function dropItem(node: ts.Node, replace: Replace, source: string): void {
  const comma = /^\s*,/.exec(source.slice(node.end));
  replace(node.getStart(), node.end + (comma?.[0].length ?? 0), '');
}

/** An argument of a largest or smallest is dropped; two arguments after each other are swapped. */
function call({ expression, arguments: given }: ts.CallExpression, replace: Replace): void {
  const isExtreme = /^Math\.(max|min)$/.test(expression.getText());
  const [one, other] = given;
  if (!one || !other || given.some(ts.isSpreadElement)) return;
  if (isExtreme) {
    replace(one.getStart(), other.getStart(), '');
    if (given.length === 2) replace(one.end, other.end, '');
  } else if (!ts.isFunctionLike(one) && !ts.isFunctionLike(other)) {
    replace(one.getStart(), other.end, `${other.getText()}, ${one.getText()}`);
  }
}
