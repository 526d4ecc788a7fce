import type { Refusal } from '../../shared-types/errors.ts';
import type { AnyRecord, TableName } from '../../shared-types/records/index.ts';
import { RefusedError } from '../engine/errors.ts';
import type { Into } from '../engine/everything/intoHere.ts';
import { lookedInto } from '../engine/everything/lookedInto.ts';
import { readEverything } from '../engine/everything/readEverything.ts';
import type { AllTables } from '../engine/everything/readSnapshotText.ts';
import type { Digest } from '../engine/record/chain.ts';
import { faultsMost, recordsPiece } from './everythingMessages.ts';
import type { EverythingAsked, EverythingTold } from './everythingMessages.ts';

/** The worker's half, without the worker: holds the file and what is kept, and hands back no more than a page shows, or a piece. */
export function everythingDesk(
  send: (message: EverythingTold) => void,
  digest: Digest,
): (asked: EverythingAsked) => Promise<void> {
  let pieces: string[] = [];
  let file: AllTables | null = null;
  const here = new Map<TableName, Map<string, AnyRecord>>();
  let into: Into | null = null;

  const read = async (name: string): Promise<void> => {
    const text = pieces.join('');
    pieces = [];
    const { tables, ...said } = await readEverything(text, name, digest, (count) =>
      send({ kind: 'doing', doing: `Looking ${count} records of ${name} through` }),
    );
    file = tables;
    send({ kind: 'read', read: said });
  };
  const look = async ({ differing }: Extract<EverythingAsked, { kind: 'look' }>): Promise<void> => {
    if (file === null) throw new Error('nothing was read');
    const found = await lookedInto(here, file, { differing, digest });
    if ('looked' in found) {
      ({ into } = found);
      return send({ kind: 'looked', looked: found.looked });
    }
    const { contradictions, faults } = found.contrary;
    const more = Math.max(0, contradictions.length - faultsMost) + Math.max(0, faults.length - faultsMost);
    const contrary = { contradictions: contradictions.slice(0, faultsMost), faults: faults.slice(0, faultsMost) };
    send({ kind: 'contrary', contrary, more });
  };
  const handOver = (): void => {
    const puts = into?.puts ?? [];
    for (let from = 0; from === 0 || from < puts.length; from += recordsPiece)
      send({ kind: 'puts', puts: puts.slice(from, from + recordsPiece), isLast: from + recordsPiece >= puts.length });
  };
  const answer = async (asked: EverythingAsked): Promise<void> => {
    if (asked.kind === 'text') {
      pieces.push(asked.piece);
      if (asked.isLast) await read(asked.name);
    } else if (asked.kind === 'here') {
      const own = here.get(asked.table) ?? new Map<string, AnyRecord>();
      for (const record of asked.records) own.set(record.id, record);
      here.set(asked.table, own);
    } else if (asked.kind === 'look') await look(asked);
    else handOver();
  };
  return (asked) => answer(asked).catch((error: unknown) => send({ kind: 'refused', refusal: refusalOf(error) }));
}

function refusalOf(error: unknown): Refusal {
  if (!(error instanceof RefusedError)) return { code: 'internal', message: String(error) };
  const { refusal } = error;
  const { rows } = refusal;
  if (rows === undefined || rows.length <= faultsMost) return refusal;
  const more = { code: refusal.code, message: `There are ${rows.length - faultsMost} more faults.` };
  return { ...refusal, rows: [...rows.slice(0, faultsMost), more] };
}
