/** The journal's host, with a limit on each call, and its refusals told apart from those of our own checks. */
import type { Refusal, RefusalCode } from '../../../shared-types/errors.ts';
import type { JournalHost } from '../../../shared-types/host.ts';
import type { Appended, AppendRequest, JournalEntry } from '../../../shared-types/journal.ts';
import { RefusedError } from '../../engine/errors.ts';
import { within } from '../noAnswer.ts';

/** The host refused. What it says of the change itself is not known by that alone. */
export class HostError extends Error {
  override readonly name = 'HostError';
  readonly refusal: Refusal;
  constructor(refusal: Refusal) {
    super(refusal.message);
    this.refusal = refusal;
  }
}

/** What broke off after the journal was asked: it may hold the deed. Its cause says why. */
export class InDoubtError extends Error {
  override readonly name = 'InDoubtError';
}

export function refusedAs(error: unknown, ...codes: RefusalCode[]): boolean {
  return error instanceof HostError && codes.includes(error.refusal.code);
}

/** Refused for what it is, or by the disk: then nothing was written. No answer, or a broken one, says nothing of that. */
export function refusedFor(error: unknown): boolean {
  return error instanceof HostError && !refusedAs(error, 'not-available', 'internal');
}

export async function ask<T>(answer: () => Promise<T>, limitMs: number, call: string): Promise<T> {
  try {
    return await within(answer(), limitMs, call);
  } catch (error) {
    throw error instanceof RefusedError ? new HostError(error.refusal) : error;
  }
}

/**
 * Appends, and finds out what became of it where the answer was lost: the key makes asking twice the same as asking once.
 * A call that did not settle in its time is not asked again here.
 *
 * @throws InDoubtError where it could not be found out; HostError where it was refused; else what came between
 */
export async function appendSurely(
  journal: JournalHost,
  request: AppendRequest,
  limitMs: () => number,
): Promise<Appended> {
  const append = (): Promise<Appended> => ask(() => journal.append(request), limitMs(), 'the journal');
  try {
    return await append();
  } catch (error) {
    if (refusedFor(error) || limitMs() <= 0) throw error;
    const { entries } = await ask(() => journal.read({ from: request.seq }), limitMs(), 'the journal').catch(
      (cause: unknown) => {
        throw new InDoubtError('', { cause });
      },
    );
    const mine = entries.find(({ payload }) => payload.key === request.payload.key);
    if (mine !== undefined) return { seq: mine.seq, hash: mine.hash, utc: mine.utc };
    return await append();
  }
}

/** Every entry from `from` on, page by page. */
export async function* entriesFrom(
  journal: JournalHost,
  from: number,
  limitMs: () => number,
): AsyncGenerator<JournalEntry[]> {
  let next: number | null = from;
  while (next !== null) {
    const asked: number = next;
    const page = await ask(() => journal.read({ from: asked }), limitMs(), 'the journal');
    if (page.entries.length > 0) yield page.entries;
    next = page.next;
  }
}
