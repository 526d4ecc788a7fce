/** Which exported functions of the engine say too little above themselves. */
import { dirname } from 'node:path';
import ts from 'typescript';

/** Folders that read, keep, arrange and search. In all others a value is computed. */
const arranging = new Set([
  'bag',
  'bagMap',
  'callout',
  'cards',
  'catalog',
  'everything',
  'frozen',
  'handbook',
  'inspection',
  'json',
  'kits',
  'outing',
  'packing',
  'plan',
  'record',
  'records',
  'return',
  'sheet',
  'stack',
  'stepTable',
  'tableImport',
  'tag',
  'usualSteps',
  'watchOuts',
]);

const unitInName = /[a-z0-9](?:Nm|N|Mm|Mm2|MPa|Kg|Deg|L|S|In|In2|PerInch|PerMm|NPerMm|Turns)$/;

/** What stands for a unit where a number has none: what it counts or compares, or its range. */
const unitless = /\b(?:ratio|share|factor|count|number|how many|digits|decimals|places|coefficient|index)\b|[<>≤≥]|\d/i;

interface Tags {
  summary: string;
  /** Text of each tag, by the tag's name. */
  byName: Map<string, string[]>;
}

function tagsOf(comment: string): Tags {
  const text = comment
    .replace(/^\/\*\*|\*\/$/g, '')
    .split('\n')
    .map((line) => line.replace(/^\s*\* ?/, ''))
    .join('\n');
  const [summary = '', ...rest] = text.split(/(?:^|\n)\s*@/);
  const byName = new Map<string, string[]>();
  for (const tag of rest) {
    const [, name = '', said = ''] = /^(\w+)\s*([\s\S]*)$/.exec(tag) ?? [];
    byName.set(name, [...(byName.get(name) ?? []), said.trim()]);
  }
  return { summary: summary.trim(), byName };
}

type FunctionNode = ts.FunctionDeclaration | ts.ArrowFunction | ts.FunctionExpression;

interface Exported {
  name: string;
  node: FunctionNode;
  /** Where the comment stands: the declaration itself, or the statement around a constant; several for overloads. */
  comments: string[];
}

function commentsAt(node: ts.Node): string[] {
  const text = node.getSourceFile().text;
  return (ts.getLeadingCommentRanges(text, node.pos) ?? [])
    .map(({ pos, end }) => text.slice(pos, end))
    .filter((comment) => comment.startsWith('/**'));
}

function exportedFunctions(source: ts.SourceFile): Exported[] {
  const found = new Map<string, Exported>();
  for (const statement of source.statements) {
    const isExported = ts.canHaveModifiers(statement)
      ? ts.getModifiers(statement)?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword)
      : false;
    if (isExported !== true) continue;
    if (ts.isFunctionDeclaration(statement)) {
      const name = statement.name?.text ?? 'default';
      const earlier = found.get(name)?.comments ?? [];
      // The last comment before a declaration is its own; the file's may stand above it.
      found.set(name, { name, node: statement, comments: [...earlier, ...commentsAt(statement).slice(-1)] });
    } else if (ts.isVariableStatement(statement)) {
      for (const { name, initializer } of statement.declarationList.declarations) {
        if (initializer === undefined || !(ts.isArrowFunction(initializer) || ts.isFunctionExpression(initializer)))
          continue;
        const named = name.getText();
        found.set(named, { name: named, node: initializer, comments: commentsAt(statement).slice(-1) });
      }
    }
  }
  return [...found.values()];
}

/** Whether a function's own code throws; what it calls is not looked into. */
function throwsItself(node: ts.Node): boolean {
  let found = false;
  const visit = (child: ts.Node): void => {
    if (ts.isThrowStatement(child)) found = true;
    else if (!ts.isFunctionLike(child)) ts.forEachChild(child, visit);
  };
  ts.forEachChild(node, visit);
  return found;
}

function isNumber(type: ts.Type): boolean {
  const parts = type.isUnion() ? type.types : [type];
  const meant = parts.filter(({ flags }) => (flags & (ts.TypeFlags.Undefined | ts.TypeFlags.Null)) === 0);
  return meant.length > 0 && meant.every((one) => (one.flags & ts.TypeFlags.NumberLike) !== 0 && !one.isLiteral());
}

interface NumericInput {
  name: string;
  /** What its own declaration says of it, where it is a field of a named shape. */
  comment: string;
}

/** The numbers a function takes: as such, or as fields of an object. */
function numericInputs(checker: ts.TypeChecker, node: FunctionNode): NumericInput[] {
  return node.parameters.flatMap((parameter) => {
    const type = checker.getTypeAtLocation(parameter);
    if (isNumber(type)) return [{ name: parameter.name.getText(), comment: '' }];
    const declared = parameter.type;
    const isObject = declared !== undefined && (ts.isTypeLiteralNode(declared) || ts.isTypeReferenceNode(declared));
    if (!isObject || type.isUnion() || checker.isArrayType(type)) return [];
    return checker.getPropertiesOfType(type).flatMap((property) => {
      const declaration = property.valueDeclaration;
      if (declaration === undefined || !ts.isPropertySignature(declaration)) return [];
      // A shape of another file says of its own fields what they are.
      if (declaration.getSourceFile() !== node.getSourceFile()) return [];
      if (!isNumber(checker.getTypeOfSymbolAtLocation(property, parameter))) return [];
      return [{ name: property.name, comment: commentsAt(declaration).join('\n') }];
    });
  });
}

function unitFaults({ byName }: Tags, inputs: readonly NumericInput[]): string[] {
  const params = byName.get('param') ?? [];
  return inputs.flatMap(({ name, comment }) => {
    const said = params.find((param) => new RegExp(`^(?:\\w+\\.)?${name}\\b`).test(param)) ?? comment;
    if (said === '') return [`no @param ${name}`];
    const hasUnit = /\[[^\]]+\]/.test(said);
    return hasUnit || (!unitInName.test(name) && unitless.test(said)) ? [] : [`no unit in brackets for ${name}`];
  });
}

function returnsNothing(checker: ts.TypeChecker, node: FunctionNode): boolean {
  const signature = checker.getSignatureFromDeclaration(node);
  if (signature === undefined) return false;
  return (checker.getReturnTypeOfSignature(signature).flags & (ts.TypeFlags.Void | ts.TypeFlags.Never)) !== 0;
}

/**
 * Whether a function owes the whole form. A name that ends in a unit, or a number that comes out of a computing folder, is a computed
 * value; so is whatever such a folder hands out: all it exports, or what its index does where it has one.
 */
function computes(program: ts.Program, source: ts.SourceFile, { name, node }: Exported): boolean {
  if (unitInName.test(name)) return true;
  // A folder within such a folder arranges too.
  const folder = dirname(source.fileName);
  const folders = folder.split('/');
  const inEngine = folders.slice(folders.lastIndexOf('engine') + 1);
  if (inEngine.length === 0 || arranging.has(inEngine[0] ?? '')) return false;
  const checker = program.getTypeChecker();
  const signature = checker.getSignatureFromDeclaration(node);
  if (signature !== undefined && isNumber(checker.getReturnTypeOfSignature(signature))) return true;
  const index = program.getSourceFile(`${folder}/index.ts`);
  const handedOut = index === undefined ? undefined : checker.getSymbolAtLocation(index);
  return handedOut === undefined || checker.getExportsOfModule(handedOut).some((symbol) => symbol.name === name);
}

function faultsOfFunction(program: ts.Program, source: ts.SourceFile, exported: Exported): string[] {
  const { node, comments } = exported;
  const checker = program.getTypeChecker();
  if (comments.length === 0) return ['no docstring'];
  const tags = tagsOf(comments.join('\n').replaceAll(/\*\/\s*\/\*\*/g, ''));
  const has = (tag: string): boolean => (tags.byName.get(tag) ?? []).some((said) => said !== '');
  const saysNothingThrown =
    /nothing (?:is )?thrown/i.test(tags.summary) ||
    (tags.byName.get('throws') ?? []).some((said) => /^nothing\b/i.test(said));
  const faults: string[] = [];
  if (tags.summary === '') faults.push('no summary');
  if (throwsItself(node) && !has('throws')) faults.push('throws, and has no @throws');
  if (throwsItself(node) && saysNothingThrown) faults.push('throws, and says that nothing is thrown');
  if (!computes(program, source, exported)) {
    // A summary of one line that says what comes back is enough; a longer one wants it where a reader looks for it.
    if (!returnsNothing(checker, node) && !has('returns') && tags.summary.includes('\n\n')) faults.push('no @returns');
    return faults;
  }
  if (!returnsNothing(checker, node) && !has('returns')) faults.push('no @returns');
  if (!has('throws') && !saysNothingThrown) faults.push('no @throws, nor a word that nothing is thrown');
  for (const tag of ['source', 'validity', 'example']) if (!has(tag)) faults.push(`no @${tag}`);
  return [...faults, ...unitFaults(tags, numericInputs(checker, node))];
}

/** Every fault as "folder/file.ts name: what". */
export function docstringFaults(program: ts.Program, engine: string): string[] {
  // Binds the trees: without it no node knows its file.
  program.getTypeChecker();
  return program
    .getSourceFiles()
    .filter(({ fileName }) => fileName.startsWith(`${engine}/`) && !fileName.endsWith('.d.ts'))
    .flatMap((source) => {
      const file = source.fileName.slice(engine.length + 1);
      return exportedFunctions(source).flatMap((one) =>
        faultsOfFunction(program, source, one).map((fault) => `${file} ${one.name}: ${fault}`),
      );
    });
}
