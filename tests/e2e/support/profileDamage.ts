/** Damage to the browser's own files, as disks, crashes and cleaning programs do it. The browser must not be running. */
import {
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import type { Dice } from '../../reference/dice.ts';

export interface DamagedProfile {
  profile: string;
  port: number;
  dice: Dice;
}

export type Damage = (where: DamagedProfile) => string;

/** Where Chromium keeps the databases of the program's address. */
function databaseFolder({ profile, port }: Pick<DamagedProfile, 'profile' | 'port'>): string {
  return join(profile, 'Default', 'IndexedDB', `http_127.0.0.1_${port}.indexeddb.leveldb`);
}

function filesOf(where: DamagedProfile, form: RegExp): string[] {
  const folder = databaseFolder(where);
  const found = readdirSync(folder)
    .filter((name) => form.test(name))
    .map((name) => join(folder, name))
    .filter((file) => statSync(file).size > 0);
  if (found.length === 0) throw new Error(`no file like ${form} in ${folder}: ${readdirSync(folder).join(' ')}`);
  return found.toSorted((a, b) => statSync(b).size - statSync(a).size);
}

function largest(where: DamagedProfile, form: RegExp): string {
  const [first] = filesOf(where, form);
  if (first === undefined) throw new Error('no file');
  return first;
}

const flippedBytes = 64;

function flip(file: string, { dice }: DamagedProfile): string {
  const bytes = readFileSync(file);
  // Not the first bytes alone: anywhere, as a bad sector would.
  const at = dice.whole(0, Math.max(0, bytes.length - flippedBytes));
  for (let n = at; n < Math.min(bytes.length, at + flippedBytes); n += 1) bytes[n] = (bytes[n] ?? 0) ^ 0xff;
  writeFileSync(file, bytes);
  return `${file} of ${bytes.length} bytes, flipped from ${at}`;
}

const log = /^\d+\.log$/;
const table = /^\d+\.ldb$/;

export const damages = {
  'truncate log': (where) => {
    const file = largest(where, log);
    const { size } = statSync(file);
    const length = where.dice.whole(0, size - 1);
    truncateSync(file, length);
    return `${file} cut from ${size} to ${length}`;
  },
  'flip log': (where) => flip(largest(where, log), where),
  'flip ldb': (where) => flip(largest(where, table), where),
  'delete ldb': (where) => {
    const file = where.dice.pick(filesOf(where, table));
    rmSync(file);
    return `${file} deleted`;
  },
  'empty CURRENT': (where) => {
    writeFileSync(join(databaseFolder(where), 'CURRENT'), '');
    return 'CURRENT emptied';
  },
  'empty MANIFEST': (where) => {
    const file = largest(where, /^MANIFEST-/);
    writeFileSync(file, '');
    return `${file} emptied`;
  },
  'folder deleted': (where) => {
    rmSync(join(where.profile, 'Default', 'IndexedDB'), { recursive: true });
    return 'the folder of all databases deleted';
  },
  'profile swapped': ({ profile }) => {
    renameSync(profile, `${profile}-before`);
    mkdirSync(profile, { mode: 0o700 });
    return 'an empty profile in place of the old one';
  },
} as const satisfies Record<string, Damage>;

export type DamageName = keyof typeof damages;
export const damageNames = Object.keys(damages) as DamageName[];
