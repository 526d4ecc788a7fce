import { useState } from 'react';
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { rowsMost } from '../../../shared-types/records/judgedLists.ts';
import type { AsRunList, CalloutList } from '../../../shared-types/records/judgedLists.ts';
import { refusalOf } from '../../store/session.ts';
import type { AsRunDesk, AsRunTableState } from '../../workers/asRun.ts';
import { allRows } from '../judged/allRows.ts';
import type { Cells } from '../judged/listActs.ts';
import { freshListName } from '../judged/listRows.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { useSession } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { useStore } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { addList } from './recordActs.ts';

interface Judged {
  desk: AsRunDesk;
  of: string;
  state: AsRunTableState | null;
  name: string;
  lists: readonly AsRunList[];
  task: string;
  person: string;
  against: CalloutList | null;
  /** The file is not wanted any more. */
  onKept: () => void;
}

/** The way from a judged file to a list that is kept: all rows that can be read, or none. */
export function useKeepFile({ desk, of, state, name, lists, task, person, against, onKept }: Judged): {
  button: ReactNode;
} {
  const store = useStore();
  const session = useSession();
  const [keeping, setKeeping] = useState(false);
  const judged = state?.judged ?? null;
  const lines = state?.lines ?? [];
  const unreadable = judged?.summary.unreadable ?? 0;
  const readable = lines.length - unreadable;

  const keep = async (): Promise<void> => {
    if (judged === null || keeping) return;
    setKeeping(true);
    try {
      const cells = await allRows<Cells>(lines.length, (from, count) => desk.cells(of, from, count));
      const rows = cells.filter((_, at) => lines[at]?.state !== 'unreadable');
      const list: AsRunList = {
        ...{ id: store.newId(), rev: 0, task, name: freshListName(name, lists, 'As-run'), person },
        columns: [...judged.columns],
        from: { file: name.slice(0, 400), at: isoWithOffset(new Date()) },
        ...(against === null ? {} : { callouts: against.id }),
      };
      await store.commit(await addList(list, rows, store.newId));
      onKept();
      goTo({ at: 'asrun', list: list.id }, 'replace');
    } catch (error) {
      session.refuse(name, refusalOf(error));
    } finally {
      setKeeping(false);
    }
  };
  if (judged === null || readable === 0) return { button: null };
  if (readable > rowsMost)
    return {
      button: (
        <span className="bw-second">
          Too long to be kept: at most {rowsMost} rows are. Its judgement can be read here.
        </span>
      ),
    };
  return {
    button: (
      <Button variant="filled" aria-disabled={keeping || undefined} onClick={() => void keep()}>
        {keeping
          ? 'Keeping…'
          : unreadable === 0
            ? `Keep as a list of ${countOf(readable, 'record')}`
            : `Keep the ${readable} that can be read`}
      </Button>
    ),
  };
}
