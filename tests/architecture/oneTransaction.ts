/** Where the working copy is written, and whether what is read before it is written is read in the same transaction. */
import { relative } from 'node:path';
import ts from 'typescript';

/** What Dexie's tables and collections write with, and read with. */
const writes = new Set([
  ...['put', 'bulkPut', 'add', 'bulkAdd', 'update', 'bulkUpdate', 'upsert', 'delete', 'bulkDelete', 'clear', 'modify'],
]);
const reads = new Set([
  ...['get', 'bulkGet', 'toArray', 'count', 'each', 'first', 'last', 'keys', 'primaryKeys', 'uniqueKeys', 'sortBy'],
  ...['eachKey', 'eachPrimaryKey', 'eachUniqueKey'],
]);

export interface WriteRules {
  /** Files, from the root of the sources, that may write. */
  mayWrite: ReadonlySet<string>;
  /** `file function`: writes that stand alone in a database which no window has open yet; it reads no table itself. */
  alone: ReadonlySet<string>;
}

export interface WriteFound {
  faults: string[];
  /** Every write that was looked at, as `file function`. */
  writes: string[];
}

/** The nearest function that has a name, or stands by itself in a file. */
function functionAround(node: ts.Node): ts.SignatureDeclaration | ts.SourceFile {
  let found: ts.SignatureDeclaration | ts.SourceFile = node.getSourceFile();
  for (let at: ts.Node | undefined = node.parent; at !== undefined; at = at.parent)
    if (ts.isFunctionLike(at) && nameOf(at) !== null) return at;
    else if (ts.isFunctionLike(at)) found = at;
  return found;
}

function nameOf(at: ts.SignatureDeclaration): string | null {
  if (at.name !== undefined) return at.name.getText();
  const { parent } = at;
  return ts.isVariableDeclaration(parent) || ts.isPropertyAssignment(parent) ? parent.name.getText() : null;
}

/** The `transaction('rw', …)` whose function a node stands in, if any. */
function transactionAround(node: ts.Node): ts.CallExpression | null {
  for (let at: ts.Node | undefined = node; at?.parent !== undefined; at = at.parent) {
    const { parent } = at;
    if (!ts.isFunctionLike(at) || !ts.isCallExpression(parent)) continue;
    const [mode] = parent.arguments;
    const isTransaction =
      ts.isPropertyAccessExpression(parent.expression) && parent.expression.name.text === 'transaction';
    if (isTransaction && mode !== undefined && ts.isStringLiteral(mode) && mode.text.startsWith('rw')) return parent;
  }
  return null;
}

/** @param program - of typed sources; `root` is what their names are told from */
export function unsafeWrites(program: ts.Program, root: string, rules: WriteRules): WriteFound {
  const checker = program.getTypeChecker();
  // Nothing outside the store has a table in hand; to ask for the types of all else would take a minute.
  const files = program.getSourceFiles().filter(({ fileName }) => fileName.includes('/renderer/store/'));
  const found: { node: ts.CallExpression; kind: 'read' | 'write' }[] = [];
  const callsOf = new Map<ts.Node, ts.CallExpression[]>();
  for (const file of files) ts.forEachChild(file, look);

  function look(node: ts.Node): void {
    if (ts.isCallExpression(node)) {
      const kind = kindOf(node);
      if (kind !== null) found.push({ node, kind });
      const called = ts.isIdentifier(node.expression) ? declarationOf(node.expression) : null;
      if (called !== null) callsOf.set(called, [...(callsOf.get(called) ?? []), node]);
    }
    ts.forEachChild(node, look);
  }
  function kindOf({ expression }: ts.CallExpression): 'read' | 'write' | null {
    if (!ts.isPropertyAccessExpression(expression)) return null;
    const method = expression.name.text;
    const kind = writes.has(method) ? 'write' : reads.has(method) ? 'read' : null;
    return kind !== null && isOfDexie(expression.expression) ? kind : null;
  }
  function isOfDexie(of: ts.Expression): boolean {
    const symbol = checker.getTypeAtLocation(of).getSymbol();
    const from = symbol?.declarations?.[0]?.getSourceFile().fileName ?? '';
    return from.includes('node_modules/dexie/') && ['Table', 'Collection', 'WhereClause'].includes(symbol?.name ?? '');
  }
  function declarationOf(of: ts.Expression): ts.Node | null {
    let symbol = checker.getSymbolAtLocation(of);
    if (symbol !== undefined && (symbol.flags & ts.SymbolFlags.Alias) !== 0) symbol = checker.getAliasedSymbol(symbol);
    const declared = symbol?.valueDeclaration;
    if (declared === undefined) return null;
    return ts.isVariableDeclaration(declared) ? (declared.initializer ?? null) : declared;
  }

  // What reads by calling what reads counts as reading, through all files.
  const reading = new Set<ts.Node>(found.flatMap(({ node, kind }) => (kind === 'read' ? [functionAround(node)] : [])));
  for (const one of reading) for (const call of callsOf.get(one) ?? []) reading.add(functionAround(call));

  /** The transaction a call stands in: its own, or that of all who call its function. */
  const within = (node: ts.CallExpression, seen: ReadonlySet<ts.Node>): ts.CallExpression | 'callers' | null => {
    const own = transactionAround(node);
    if (own !== null) return own;
    const around = functionAround(node);
    const calls = callsOf.get(around) ?? [];
    if (ts.isSourceFile(around) || seen.has(around) || calls.length === 0) return null;
    const more = new Set([...seen, around]);
    return calls.every((call) => within(call, more) !== null) ? 'callers' : null;
  };
  const called = (node: ts.Node): string => {
    const around = functionAround(node);
    const path = relative(root, node.getSourceFile().fileName);
    return `${path} ${ts.isSourceFile(around) ? '' : (nameOf(around) ?? '')}`.trim();
  };
  const readsIn = (around: ts.Node): ts.CallExpression[] =>
    found.flatMap(({ node, kind }) => (kind === 'read' && functionAround(node) === around ? [node] : []));
  const readsByCallsIn = (around: ts.Node): ts.CallExpression[] =>
    [...reading].flatMap((one) => (callsOf.get(one) ?? []).filter((call) => functionAround(call) === around));

  const faults: string[] = [];
  const written = found.filter(({ kind }) => kind === 'write').map(({ node }) => node);
  for (const node of written) {
    const at = called(node);
    const what = `${at}: ${node.expression.getText().replaceAll(/\s+/g, ' ')}`;
    if (!rules.mayWrite.has(at.split(' ')[0] ?? '')) faults.push(`${what}: this file may not write`);
    const own = within(node, new Set());
    const around = functionAround(node);
    const beside = readsIn(around);
    if (own === null) {
      if (!rules.alone.has(at)) faults.push(`${what}: outside a transaction`);
      else if (beside.length > 0) faults.push(`${what}: alone, and something is read beside it`);
    } else if (
      own !== 'callers' &&
      [...beside, ...readsByCallsIn(around)].some((read) => transactionAround(read) !== own)
    )
      faults.push(`${what}: what is read beside it is read outside its transaction`);
  }
  return { faults, writes: written.map(called) };
}
