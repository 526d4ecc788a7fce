/** The checks that keep the kept records whole: pure questions about what they would be after a change. */
import type { Change } from '../../../shared-types/journal.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { RefusedError } from '../../engine/errors.ts';
import { breathe } from '../breathe.ts';
import { codeClashes } from './codes.ts';
import { brokenFrozen } from './frozen.ts';
import { missingParents } from './parents.ts';
import { brokenReferences } from './referrers.ts';
import { brokenTags } from './tags.ts';
import { viewOf } from './view.ts';
import type { Reads } from './view.ts';

/** From so many changes on, the page is let breathe between two checks. */
const many = 500;

/**
 * @param isUndo - whether the changes turn an earlier act round
 * @throws RefusedError: the first fault in front, all of them in `rows` where there are several
 */
export async function keepWhole(changes: readonly Change[], reads: Reads, isUndo: boolean): Promise<void> {
  const view = viewOf(changes, reads, isUndo);
  const refusals: Refusal[] = [];
  for (const check of [codeClashes, missingParents, brokenReferences, brokenTags, brokenFrozen]) {
    refusals.push(...(await check(view)));
    if (changes.length > many) await breathe();
  }
  const [first] = refusals;
  if (first === undefined) return;
  throw new RefusedError(refusals.length === 1 ? first : { ...first, rows: refusals });
}
