import type { Refusal } from '../../../shared-types/errors.ts';
import { RefusedError } from '../../engine/errors.ts';
import { PartedError } from '../copy/applyEntries.ts';
import { HostError } from './hostCalls.ts';
import { NoAnswerError } from '../noAnswer.ts';

const diskMayBeFull = 'the disk may be full';

/** What the browser's database means by the names of its errors. */
const databaseWords: Record<string, string> = {
  QuotaExceededError: 'the disk, or the share of it this window may use, is full',
  DatabaseClosedError: 'the working copy was closed under this window',
  InvalidStateError: 'the working copy was closed under this window',
  AbortError: `the working copy gave the write up; ${diskMayBeFull}`,
  UnknownError: `the working copy cannot be read or written; ${diskMayBeFull}, or the working copy is damaged`,
  TransactionInactiveError: 'the working copy gave the write up',
  TimeoutError: 'the working copy has not answered in time',
  VersionError: 'the working copy belongs to a newer version of this program',
  NotFoundError: 'the working copy lacks one of its tables',
  ConstraintError: 'the working copy holds another record with the same key',
  DataError: 'the working copy did not take the record',
  DataCloneError: 'the record holds something that cannot be kept',
};

const hostWords: Partial<Record<Refusal['code'], string>> = {
  disk: 'the disk did not take it',
  'not-writer': 'another window has the right to write',
  'not-available': 'the program behind this window does not answer',
  behind: 'other windows keep writing at the same time',
  'too-large': 'it is too much for one step',
};

/** Why a change is not saved, in plain words, with the error's own name or words behind. Never empty. */
export function whyNotSaved(error: unknown): string {
  if (error instanceof NoAnswerError || error instanceof PartedError) return error.message;
  if (error instanceof RefusedError || error instanceof HostError) {
    const words = hostWords[error.refusal.code];
    return words === undefined ? error.message : `${words}: ${error.message}`;
  }
  const name = nameOf(error);
  const message = messageOf(error);
  if (name === 'BulkError') return `some records were not taken, so none was kept: ${firstFailure(error) ?? message}`;
  const words = databaseWords[name];
  if (words !== undefined) return `${words} (${name})`;
  if (message === '') return name === '' ? 'for no reason given' : name;
  return name === '' || name === 'Error' ? message : `${message} (${name})`;
}

function nameOf(error: unknown): string {
  return error instanceof Error || error instanceof DOMException ? error.name : '';
}

function messageOf(error: unknown): string {
  return error instanceof Error || error instanceof DOMException ? error.message : String(error);
}

/** A failed bulk write keeps the true causes one level down. */
function firstFailure(error: unknown): string | undefined {
  const { failures } = error as { failures?: unknown };
  if (!Array.isArray(failures) || failures.length === 0) return undefined;
  return whyNotSaved(failures[0]);
}
