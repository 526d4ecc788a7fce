/**
 * Records of every table with awkward values, made from the tables' own schemas: every field that may be absent is absent half of the
 * time, texts are empty, long, of other scripts and with marks, numbers are 0, −0, tiny and huge as far as their schema lets them. A value
 * that a schema refuses is made again. What a record names by key is there; codes and numbers are given once.
 */
import type { AnyRecord, TableName } from '../../shared-types/records/index.ts';
import { recordSchemas, tableNames } from '../../shared-types/records/index.ts';
import { keyFields } from '../../renderer/engine/records/keyFields.ts';
import type { Digest } from '../../renderer/engine/record/chain.ts';
import { contentHash, eventHash } from '../../renderer/engine/record/chain.ts';
import type { Dice } from '../reference/dice.ts';

type Row = Record<string, unknown>;
/** What of a schema's inside is looked at. */
interface Def {
  type: string;
  shape?: Record<string, Inside>;
  innerType?: Inside;
  element?: Inside;
  items?: Inside[];
  options?: Inside[];
  entries?: Record<string, string>;
  values?: unknown[];
  keyType?: Inside;
  valueType?: Inside;
}
interface Inside {
  def: Def;
  safeParse(value: unknown): { success: boolean };
}

const texts = [
  ...[
    '',
    '0',
    ' ',
    'A',
    '3/8',
    '00123',
    '12E5',
    '=1+1',
    '-5',
    'null',
    'Crëw ½',
    '\u202Eabc\u202C',
    'e\u0301',
    '\u{1F527}',
  ],
  ...['line\nbreak\ttab', '"quoted" \\', '\u200B\uFEFF', 'ß'.repeat(80), 'é'.repeat(200), 'x'.repeat(2000)],
];
const fitting = [
  ...['2031-04-05', '2028-02-29', '2031-04-05T10:20:30+05:45', '2031-04-05T10:20:30Z', '2031-04-05T10:20:30.123Z'],
  ...['a1'.repeat(32), 'key_-9', 'preload', 'K', 'circle 120 mm', '10 mm', 'Left; Right'],
];
const numbers = [0, -0, 1, 2, 3, 0.1, 1e-12, 5e-324, 0.5, 360, 1000, 999_999, 1_000_000, 1e21, -1.5, 12, 99];

/** @returns a value that its schema takes; undefined only where the field may be absent */
function valueOf(schema: Inside, chance: Dice, depth = 0): unknown {
  for (let attempt = 0; attempt < 400; attempt += 1) {
    const value = proposal(schema.def, chance, depth);
    if (schema.safeParse(value).success) return value;
  }
  throw new Error(`no value found for ${schema.def.type}`);
}

function proposal(def: Def, chance: Dice, depth: number): unknown {
  switch (def.type) {
    case 'optional':
      return chance.whole(0, 1) === 0 || def.innerType === undefined
        ? undefined
        : valueOf(def.innerType, chance, depth);
    case 'nullable':
      return chance.whole(0, 1) === 0 || def.innerType === undefined ? null : valueOf(def.innerType, chance, depth);
    case 'object':
      return Object.fromEntries(
        Object.entries(def.shape ?? {}).flatMap(([name, field]) => {
          const value = valueOf(field, chance, depth + 1);
          return value === undefined ? [] : [[name, value]];
        }),
      );
    case 'array': {
      const { element } = def;
      if (element === undefined) return [];
      const count = chance.whole(0, depth > 3 ? 1 : 3);
      return Array.from({ length: count }, () => valueOf(element, chance, depth + 1));
    }
    case 'tuple':
      return (def.items ?? []).map((item) => valueOf(item, chance, depth + 1));
    case 'record': {
      const { keyType, valueType } = def;
      if (keyType === undefined || valueType === undefined) return {};
      return Object.fromEntries(
        Array.from({ length: chance.whole(0, 2) }, () => [
          String(valueOf(keyType, chance, depth + 1)),
          valueOf(valueType, chance, depth + 1),
        ]),
      );
    }
    case 'union':
      return valueOf(chance.pick(def.options ?? []), chance, depth);
    case 'enum':
      return chance.pick(Object.values(def.entries ?? {}));
    case 'literal':
      return def.values?.[0];
    case 'boolean':
      return chance.whole(0, 1) === 0;
    case 'number':
      return chance.pick(numbers);
    case 'string':
      return chance.pick([...texts, ...fitting]);
    default:
      // A planned bag and what was wished of it: their shape is not the tables' own.
      return chance.pick([
        { status: 'optimal', odd: [0, '', null, { deep: [] }] },
        { keep: [], forbid: [], spares: [] },
      ]);
  }
}

/** So many records of each table. Of settings there is one; a planned bag has the key of its task. */
export async function randomTables(
  chance: Dice,
  each: number,
  digest: Digest,
  prefix = 'k',
): Promise<Map<TableName, Map<string, AnyRecord>>> {
  const tables = new Map<TableName, Map<string, AnyRecord>>();
  // Parents first, in the order in which the tables name each other.
  const order: TableName[] = [
    'shelves',
    'sites',
    'tasks',
    'interfaces',
    'outings',
    'calloutLists',
    'asRunLists',
    'revisions',
  ];
  for (const table of [...order, ...tableNames.filter((name) => !order.includes(name))]) {
    const own = new Map<string, AnyRecord>();
    tables.set(table, own);
    for (let at = 0; at < (table === 'preferences' ? 1 : each); at += 1) {
      const row = valueOf(recordSchemas[table] as unknown as Inside, chance) as Row;
      const id = table === 'preferences' ? 'preferences' : `${prefix}_${table}-${at}`;
      const record = { ...row, id, rev: chance.whole(1, 9) } as Row;
      for (const { table: from, field, to } of keyFields) {
        if (from !== table || record[field] === undefined) continue;
        const keys = [...(tables.get(to)?.keys() ?? [])];
        if (field === 'id') record[field] = keys[at];
        else
          record[field] = Array.isArray(record[field]) ? record[field].map(() => chance.pick(keys)) : chance.pick(keys);
      }
      await madeWhole(table, record, at, tables, { digest, prefix, chance });
      own.set(String(record['id']), recordSchemas[table].parse(JSON.parse(JSON.stringify(record))) as AnyRecord);
    }
  }
  return tables;
}

/** Codes, numbers and hashes, which no schema gives. */
async function madeWhole(
  table: TableName,
  record: Row,
  at: number,
  tables: ReadonlyMap<TableName, ReadonlyMap<string, AnyRecord>>,
  { digest, prefix, chance }: { digest: Digest; prefix: string; chance: Dice },
): Promise<void> {
  if (['items', 'interfaces', 'outings', 'steps'].includes(table))
    record['code'] = `${chance.pick(['', '0', 'ß'])}${prefix}${at}`;
  if (table === 'items' && record['tag'] !== undefined) record['tag'] = at + 1;
  if (table === 'steps') {
    // One that its task has: where it has none, of another task.
    const outings = [...(tables.get('outings')?.values() ?? [])] as unknown as Row[];
    const outing = outings.find(({ task }) => task === record['task']) ?? outings[0];
    record['task'] = outing?.['task'];
    record['outing'] = outing?.['code'];
    delete record['ifFails'];
  }
  if (table === 'revisions') {
    record['number'] = at + 1;
    record['hash'] = await contentHash(record['content'] as never, digest);
  }
  if (table === 'discrepancies') record['number'] = at + 1;
  if (table === 'events') {
    const revision = [...(tables.get('revisions')?.values() ?? [])][0] as unknown as { id: string; hash: string };
    const before = [...(tables.get('events')?.values() ?? [])].at(-1) as unknown as { hash: string } | undefined;
    Object.assign(record, { revision: revision.id, no: at + 1, prev: before?.hash ?? revision.hash });
    record['hash'] = await eventHash(record as never, digest);
  }
}
