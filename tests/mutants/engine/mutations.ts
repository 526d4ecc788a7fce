import ts from 'typescript';

/** One way in which one expression of the engine can be wrong. */
export interface Mutation {
  /** Path from the root of the tree, with forward slashes. */
  file: string;
  /** Its first line, counted from 1, and that line without the blanks around it. */
  line: number;
  lineText: string;
  /** Where the expression stands in the file's text. */
  start: number;
  end: number;
  /** The expression as it stands, and what would stand there instead. */
  from: string;
  to: string;
}

const { SyntaxKind } = ts;

/** `+` and `+=` also join texts; whether they do is the type checker's to say. */
export type AddsNumbers = (expression: ts.BinaryExpression) => boolean;

const arithmetic = new Map<ts.SyntaxKind, string>([
  [SyntaxKind.PlusToken, '-'],
  [SyntaxKind.MinusToken, '+'],
  [SyntaxKind.AsteriskToken, '/'],
  [SyntaxKind.SlashToken, '*'],
  [SyntaxKind.PercentToken, '*'],
  [SyntaxKind.AsteriskAsteriskToken, '*'],
  [SyntaxKind.PlusEqualsToken, '-='],
  [SyntaxKind.MinusEqualsToken, '+='],
  [SyntaxKind.AsteriskEqualsToken, '/='],
  [SyntaxKind.SlashEqualsToken, '*='],
]);

/** A comparison is wrong at its limit or altogether; an equality only altogether. */
const comparisons = new Map<ts.SyntaxKind, readonly string[]>([
  [SyntaxKind.LessThanToken, ['<=', '>=']],
  [SyntaxKind.LessThanEqualsToken, ['<', '>']],
  [SyntaxKind.GreaterThanToken, ['>=', '<=']],
  [SyntaxKind.GreaterThanEqualsToken, ['>', '<']],
  [SyntaxKind.EqualsEqualsEqualsToken, ['!==']],
  [SyntaxKind.ExclamationEqualsEqualsToken, ['===']],
]);

const connectives = new Map<ts.SyntaxKind, string>([
  [SyntaxKind.AmpersandAmpersandToken, '||'],
  [SyntaxKind.BarBarToken, '&&'],
]);

const ofMath = new Map([
  ['Math.min', 'Math.max'],
  ['Math.max', 'Math.min'],
  ['Math.ceil', 'Math.floor'],
  ['Math.floor', 'Math.ceil'],
  ['Math.round', 'Math.floor'],
  ['Math.trunc', 'Math.floor'],
]);

const adding = new Set([SyntaxKind.PlusToken, SyntaxKind.PlusEqualsToken]);

/** The operators that may stand instead of a binary expression's own. */
function otherOperators(expression: ts.BinaryExpression, addsNumbers: AddsNumbers): readonly string[] {
  const { kind } = expression.operatorToken;
  if (adding.has(kind) && !addsNumbers(expression)) return [];
  const one = arithmetic.get(kind) ?? connectives.get(kind);
  return one === undefined ? (comparisons.get(kind) ?? []) : [one];
}

/** Another number, far enough off to matter: the next whole one, a hundredth more, and a thousandfold where it is an extreme. */
function otherNumber(text: string): string {
  const value = Number(text.replaceAll('_', ''));
  if (Number.isInteger(value) && value < 1e6) return String(value + 1);
  return value < 1e-3 || value >= 1e6 ? String(value * 1000) : String(value * 1.01);
}

/** Texts for people, types and names are no arithmetic. */
function isLeftOut(node: ts.Node): boolean {
  if (ts.isTypeNode(node) || ts.isTypeAliasDeclaration(node) || ts.isInterfaceDeclaration(node)) return true;
  if (ts.isTemplateExpression(node) || ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return true;
  return ts.isPropertyAssignment(node) && ts.isIdentifier(node.name) && node.name.text === 'message';
}

const isName = (node: ts.Node): boolean =>
  (ts.isPropertyAssignment(node.parent) || ts.isPropertySignature(node.parent)) && node.parent.name === node;

/** Every mutation of one file, in the order of its text. */
export function mutationsOf(source: ts.SourceFile, file: string, addsNumbers: AddsNumbers): Mutation[] {
  const lines = source.text.split('\n');
  const found: Mutation[] = [];

  function add(node: ts.Node, to: string): void {
    const start = node.getStart(source);
    const line = source.getLineAndCharacterOfPosition(start).line;
    const from = source.text.slice(start, node.end);
    found.push({ file, line: line + 1, lineText: lines[line]?.trim() ?? '', start, end: node.end, from, to });
  }

  function addBinary(node: ts.BinaryExpression): void {
    const { operatorToken } = node;
    const before = source.text.slice(node.getStart(source), operatorToken.getStart(source));
    const after = source.text.slice(operatorToken.end, node.end);
    for (const operator of otherOperators(node, addsNumbers)) add(node, `${before}${operator}${after}`);
  }

  function addCall(node: ts.CallExpression): void {
    const callee = node.expression.getText(source);
    const other = ofMath.get(callee);
    if (other !== undefined) add(node.expression, other);
    const [only] = node.arguments;
    if (callee === 'Math.abs' && only !== undefined) add(node, `(${only.getText(source)})`);
  }

  function addUnary(node: ts.PrefixUnaryExpression | ts.PostfixUnaryExpression): void {
    const operand = node.operand.getText(source);
    if (node.operator === SyntaxKind.MinusToken) add(node, `(${operand})`);
    const other = { [SyntaxKind.PlusPlusToken]: '--', [SyntaxKind.MinusMinusToken]: '++' }[node.operator as number];
    if (other !== undefined) add(node, ts.isPrefixUnaryExpression(node) ? `${other}${operand}` : `${operand}${other}`);
  }

  function visit(node: ts.Node): void {
    if (isLeftOut(node)) return;
    if (ts.isBinaryExpression(node)) addBinary(node);
    else if (ts.isCallExpression(node)) addCall(node);
    else if (ts.isPrefixUnaryExpression(node) || ts.isPostfixUnaryExpression(node)) addUnary(node);
    else if (ts.isNumericLiteral(node) && !isName(node)) add(node, otherNumber(node.getText(source)));
    else if (ts.isBigIntLiteral(node)) add(node, `${BigInt(node.getText(source).slice(0, -1)) + 1n}n`);
    ts.forEachChild(node, visit);
  }

  visit(source);
  return found;
}

/** How a mutation is told to a reader, and looked up: on one line. */
export function changeOf({ from, to }: Pick<Mutation, 'from' | 'to'>): string {
  const short = (text: string) => text.replaceAll(/\s+/g, ' ');
  return `${short(from)} → ${short(to)}`;
}
