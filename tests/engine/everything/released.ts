/** The released files as the disk has them, for tests without a browser. */
import { readFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { fileURLToPath } from 'node:url';
import { recordsVersion } from '../../../shared-types/records/index.ts';
import type { Released } from '../../support/released/index.ts';

const textOf = (name: string): string =>
  readFileSync(fileURLToPath(new URL(`../../support/released/${name}`, import.meta.url)), 'utf8');

/** Of every version before this one: one that nothing was kept of fails where it is read. */
export const released: readonly Released[] = Array.from({ length: recordsVersion - 1 }, (_, at) => {
  const version = at + 1;
  return {
    version,
    everything: textOf(`version-${version}.everything`),
    golden: textOf(`version-${version}.golden`),
    // There are snapshots since version 5.
    snapshot: version < 5 ? null : textOf(`version-${version}.snapshot`),
  };
});

export const digest = async (text: string): Promise<string> => createHash('sha256').update(text).digest('hex');
