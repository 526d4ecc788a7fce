import type { Change } from '../../../shared-types/journal.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { Discrepancy, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import { contentHash, eventHash } from '../../engine/record/chain.ts';
import { sha256 } from '../sha256.ts';
import type { View } from './view.ts';

/** What left and came back is only ever added to: no revision and no event is changed, and a discrepancy is closed once. */
export async function brokenFrozen(view: View): Promise<Refusal[]> {
  return [
    ...(await faultsOfRevisions(view)),
    ...(await faultsOfEvents(view)),
    ...view.changesIn('discrepancies').flatMap(faultOfDiscrepancy),
    ...(await numbersTwice(view, 'discrepancies')),
  ];
}

const stays = (table: string, what: string, id: string): Refusal => ({
  code: 'contradiction',
  message: `${what} is never changed and never removed`,
  field: `${table}.id`,
  value: id,
});

async function faultsOfRevisions(view: View): Promise<Refusal[]> {
  const faults: Refusal[] = [];
  for (const { before, after, id } of view.changesIn('revisions')) {
    if (before !== null || after === null) {
      const { number } = (before ?? after) as Revision;
      faults.push(stays('revisions', `Revision ${number}: a frozen manifest`, id));
      continue;
    }
    const { content, hash, number } = after as Revision;
    if ((await contentHash(content, sha256)) !== hash)
      faults.push({
        code: 'contradiction',
        message: `Revision ${number}: its content is not what its hash says`,
        field: 'revisions.hash',
        value: hash,
      });
  }
  return [...faults, ...(await numbersTwice(view, 'revisions'))];
}

/** Numbers are given once within a task. */
async function numbersTwice(view: View, table: 'revisions' | 'discrepancies'): Promise<Refusal[]> {
  const fresh = view
    .changesIn(table)
    .flatMap(({ before, after }) => (before === null && after !== null ? [after as Revision | Discrepancy] : []));
  if (fresh.length === 0) return [];
  const kept = await view.reads.where(
    table,
    '[task+number]',
    fresh.map(({ task, number }) => [task, number]),
  );
  const all = view.afterwards<'revisions' | 'discrepancies'>(table, kept);
  return fresh.flatMap(({ task, number }) =>
    all.filter((other) => other.task === task && other.number === number).length < 2
      ? []
      : [
          {
            code: 'duplicate-id' as const,
            message: `${table === 'revisions' ? 'Revision' : 'Discrepancy'} ${number} is there already in this task`,
            field: `${table}.number`,
            value: number,
          },
        ],
  );
}

async function faultsOfEvents(view: View): Promise<Refusal[]> {
  const fresh: OutingEvent[] = [];
  for (const { before, after, id } of view.changesIn('events')) {
    if (before !== null || after === null) return [stays('events', 'What was done', id)];
    fresh.push(after as OutingEvent);
  }
  const faults: Refusal[] = [];
  for (const revision of new Set(fresh.map((event) => event.revision))) {
    const own = fresh.filter((event) => event.revision === revision).toSorted((one, other) => one.no - other.no);
    const fault = await chainFaultOf(view, revision, own);
    if (fault !== null) faults.push(fault);
  }
  return faults;
}

async function chainFaultOf(view: View, revision: string, own: readonly OutingEvent[]): Promise<Refusal | null> {
  const first = own[0]?.no ?? 1;
  const reads = await view.reads.where('events', '[revision+no]', [
    [revision, first - 1],
    ...own.map(({ no }): [string, number] => [revision, no]),
  ]);
  const before = reads.find(({ no }) => no === first - 1);
  const [kept] = await view.reads.byIds('revisions', [revision]);
  const frozen = kept ?? view.coming('revisions').find(({ id }) => id === revision);
  let prev = first === 1 ? frozen?.hash : before?.hash;
  let no = first;
  for (const event of own) {
    const isTaken = reads.some((held) => held.no === event.no);
    const fits = !isTaken && event.no === no && event.prev === prev && (await eventHash(event, sha256)) === event.hash;
    if (!fits)
      return {
        code: isTaken ? 'duplicate-id' : 'contradiction',
        message: `Event ${event.no} does not follow the event before it`,
        field: 'events.no',
        value: event.no,
      };
    prev = event.hash;
    no += 1;
  }
  return null;
}

function faultOfDiscrepancy({ id, before, after }: Change): Refusal[] {
  if (before === null) return [];
  const [was, is] = [before, after] as unknown as [Discrepancy, Discrepancy | null];
  const { closed, rev: _was, ...open } = was;
  if (is !== null && closed === undefined) {
    const { closed: _closed, rev: _is, ...same } = is;
    if (canonicalJson(same) === canonicalJson(open)) return [];
  }
  return [stays('discrepancies', `Discrepancy ${was.number}: what it says`, id)];
}
