/// <reference lib="webworker" />
import type { Ledger, LedgerRow } from '../../shared-types/outing.ts';
import { RefusedError } from '../engine/errors.ts';
import { courseOf } from '../engine/outing/course.ts';
import { followPieces } from '../engine/outing/ledger/ledger.ts';
import { readPlan } from '../engine/plan/readPlan.ts';
import type { CourseAsked, CourseMessage } from './courseMessages.ts';

function send(message: CourseMessage): void {
  self.postMessage(message);
}

/** Rows that say the same are one object, and what is at home is left out: so a long course is a short message. */
function shortened(ledger: Ledger): Ledger {
  const known = new Map<string, LedgerRow>();
  const once = (row: LedgerRow): LedgerRow => {
    const key = JSON.stringify(row);
    const same = known.get(key) ?? row;
    known.set(key, same);
    return same;
  };
  const entries = ledger.entries.map((entry) => {
    const rows = entry.moment === 'done' ? entry.rows.filter(({ where }) => where.at !== 'store').map(once) : [];
    return { ...entry, rows };
  });
  return { ...ledger, entries };
}

function follow({ plan: text, file, outings }: CourseAsked): void {
  try {
    const plan = readPlan(text, file);
    const { ledger, ways } = followPieces(plan, outings);
    send({ kind: 'followed', followed: { ledger: shortened(ledger), ways } });
    send({ kind: 'done', course: courseOf(plan, outings) });
  } catch (error) {
    const refusal =
      error instanceof RefusedError ? error.refusal : { code: 'internal' as const, message: String(error) };
    send({ kind: 'refused', refusal });
  }
}

self.addEventListener('message', (event: MessageEvent<CourseAsked>) => follow(event.data));
