/** Secrets and their comparison, in time that does not depend on how much of a guess was right. */
import { createHash, createHmac, randomBytes, timingSafeEqual } from 'node:crypto';
import { chmodSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** 256 bits, new at every start, kept in memory only. */
export function freshToken(): string {
  return randomBytes(32).toString('base64url');
}

export function sameSecret(given: string, expected: string): boolean {
  const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(given), digest(expected));
}

const keyName = 'hello.key';
const keyBytes = 32;

/** The key by which copies of the program that share a data folder know each other. It opens nothing else. */
export function helloKey(dataFolder: string): Buffer {
  const file = join(dataFolder, keyName);
  try {
    writeFileSync(file, randomBytes(keyBytes), { flag: 'wx', mode: 0o600 });
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code !== 'EEXIST') throw cause;
  }
  const key = readFileSync(file);
  if (key.length !== keyBytes) throw new Error(`${file} is damaged; delete it and start again`);
  chmodSync(file, 0o600);
  return key;
}

/** Proof of holding the key, for one question: it cannot be replayed for another. */
export function helloProof(key: Buffer, nonce: string): string {
  return createHmac('sha256', key).update(`bagwright hello 1 ${nonce}`).digest('hex');
}
