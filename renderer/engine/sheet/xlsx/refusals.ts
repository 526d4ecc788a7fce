import type { Refusal } from '../../../../shared-types/errors.ts';
import { RefusedError } from '../../errors.ts';

/** A workbook that is not read, and why. `within` names the part of it. */
export function unreadable(why: string, part?: string): RefusedError {
  return refused('unreadable-file', why, part);
}

/** A workbook with more in it than is taken. */
export function tooLarge(why: string, part?: string): RefusedError {
  return refused('too-large', why, part);
}

function refused(code: Refusal['code'], why: string, part: string | undefined): RefusedError {
  const place = part === undefined ? '' : `, part "${part.slice(0, 80)}"`;
  return new RefusedError({ code, message: `The workbook is not read${place}: ${why}` });
}
