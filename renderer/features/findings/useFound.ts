import { useEffect, useState, useSyncExternalStore } from 'react';
import type { AsRunRow } from '../../../shared-types/asRun.ts';
import type { CalloutRow } from '../../../shared-types/callout.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { keptDesk } from '../callouts/desks.ts';
import { keptRecordDesk } from '../asrun/recordDesks.ts';
import { refusalOf } from '../../store/session.ts';
import { allRows } from '../judged/allRows.ts';

type Cells = Readonly<Record<string, string>>;

/** A list with every row judged, as far as it is judged. */
export type FoundList = { id: string; name: string; from: string | null } & (
  | { kind: 'callouts'; rows: { key: string; cells: Cells; row: CalloutRow | null; refusals: Refusal[] }[] }
  /** The steps of the task, each as the callout it is. */
  | { kind: 'steps'; rows: { key: string; cells: Cells; row: CalloutRow | null; refusals: Refusal[] }[] }
  | { kind: 'as-run'; rows: { key: string; cells: Cells; row: AsRunRow | null; refusals: Refusal[] }[] }
) & { notes: string[]; unknownColumns: string[] };

export interface Found {
  lists: FoundList[];
  /** Lists that are still being judged, or cannot be. */
  waiting: number;
  refused: { name: string; message: string }[];
}

interface Asked {
  id: string;
  name: string;
  from: string | null;
  kind: FoundList['kind'];
}

const nothing: Found = { lists: [], waiting: 0, refused: [] };

function subscribeBoth(listener: () => void): () => void {
  const ends = [keptDesk().subscribe(listener), keptRecordDesk().subscribe(listener)];
  return () => {
    for (const end of ends) end();
  };
}

const stateOf = ({ id, kind }: Asked) => (kind === 'as-run' ? keptRecordDesk() : keptDesk()).state(id);

/** How far each list is judged, in one text, so that what has not changed is not asked for again. */
const turnsOf = (asked: readonly Asked[]): string =>
  JSON.stringify(
    asked.map((one) => {
      const state = stateOf(one);
      return [one.id, one.name, state?.kind ?? null, state?.judged == null ? null : state.turn];
    }),
  );

async function listOf(asked: Asked): Promise<FoundList | null> {
  const { id, name, from } = asked;
  if (asked.kind !== 'as-run') {
    const state = keptDesk().state(id);
    if (state?.judged == null) return null;
    const { notes, unknownColumns } = state.judged;
    const rows = (await allRows(state.lines.length, (at, count) => keptDesk().judgedRows(id, at, count))) as Extract<
      FoundList,
      { kind: 'callouts' }
    >['rows'];
    return { id, name, from, kind: asked.kind, rows, notes, unknownColumns };
  }
  const state = keptRecordDesk().state(id);
  if (state?.judged == null) return null;
  const { notes, unknownColumns, wearMethod, series } = state.judged;
  const rows = (await allRows(state.lines.length, (at, count) =>
    keptRecordDesk().judgedRows(id, at, count),
  )) as Extract<FoundList, { kind: 'as-run' }>['rows'];
  const method = series.length === 0 ? [] : [wearMethod];
  return { id, name, from, kind: 'as-run', rows, notes: [...notes, ...method], unknownColumns };
}

/** Everything that is judged of some lists, asked for anew whenever one of them is judged anew. */
export function useFound(asked: readonly Asked[]): Found | null {
  const turns = useSyncExternalStore(subscribeBoth, () => turnsOf(asked));
  const [found, setFound] = useState<Found | null>(null);
  useEffect(() => {
    let wanted = true;
    const read = async (): Promise<void> => {
      const unread: Found['refused'] = [];
      const lists = await Promise.all(
        asked.map((one) =>
          listOf(one).catch((error: unknown) => {
            unread.push({ name: one.name, message: refusalOf(error).message });
            return null;
          }),
        ),
      );
      const refused = asked.flatMap((one) => {
        const refusal = stateOf(one)?.refusal ?? null;
        return refusal === null ? [] : [{ name: one.name, message: refusal.message }];
      });
      const waiting = asked.filter((one) => (stateOf(one)?.kind ?? 'judging') === 'judging').length;
      if (wanted) setFound({ lists: lists.filter((list) => list !== null), waiting, refused: [...refused, ...unread] });
    };
    if (asked.length === 0) setFound(nothing);
    else
      read().catch(
        (error: unknown) =>
          wanted && setFound({ ...nothing, refused: [{ name: 'The lists', message: refusalOf(error).message }] }),
      );
    return () => {
      wanted = false;
    };
    // What is asked for is in `turns`.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [turns]);
  return found;
}
