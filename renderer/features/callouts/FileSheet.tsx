import { useDeferredValue, useEffect, useRef, useState } from 'react';
import { Button } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import type { Host } from '../../../shared-types/host.ts';
import type { LineView } from '../../../shared-types/inspection.ts';
import { rowsMost } from '../../../shared-types/records/judgedLists.ts';
import type { CalloutList } from '../../../shared-types/records/judgedLists.ts';
import { ErrorSummary } from '../../components/ErrorSummary/ErrorSummary.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { refusalOf } from '../../store/session.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { useSession } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { useUndoRedo } from '../session/useUndoRedo.ts';
import { useStore } from '../session/useStore.ts';
import { useStable } from '../catalog/useStable.ts';
import { countOf } from '../steps/words.ts';
import { useAct } from '../task/useAct.tsx';
import { addList } from './calloutActs.ts';
import type { Cells } from './calloutActs.ts';
import { CalloutPane } from './CalloutPane.tsx';
import { JudgedBar } from '../judged/JudgedBar.tsx';
import { JudgedFoot } from '../judged/JudgedFoot.tsx';
import { CalloutTable } from './CalloutTable.tsx';
import { useLineView, useOrder } from '../judged/lineView.ts';
import { ChooseFile } from '../judged/ChooseFile.tsx';
import type { OpenFile } from '../judged/ChooseFile.tsx';
import { fileDesk, fileTable } from './desks.ts';
import { allRows } from '../judged/allRows.ts';
import { useTableState } from '../judged/useTableState.ts';
import { calloutSearch } from './calloutSearch.ts';
import { freshListName } from '../judged/listRows.ts';
import { pastedTable } from '../judged/pastedTable.ts';
import { useLook } from '../judged/useLook.ts';

export interface FileSheetProps {
  name: string;
  taskId: string;
  lists: readonly CalloutList[];
  host: Host;
  units: UnitsShown;
  person: string;
  onOpenFile: OpenFile;
  onClose: () => void;
}

const none: ReadonlySet<string> = new Set();

/** A file judged as it is: nothing of it is kept before somebody says so. */
export function FileSheet(props: FileSheetProps) {
  const { name, taskId, lists, host, units, person, onOpenFile, onClose } = props;
  const store = useStore();
  const session = useSession();
  const turns = useUndoRedo();
  const { run, notice } = useAct();
  const desk = fileDesk();
  const state = useTableState(desk, fileTable);
  const [view, look] = useLineView('callouts');
  const searched = useDeferredValue(view);
  const places = useOrder(desk, fileTable, state, searched);
  const [key, setKey] = useState<string | null>(null);
  const [keeping, setKeeping] = useState(false);
  const [showsFaults, setShowsFaults] = useState(true);
  const root = useRef<HTMLDivElement>(null);
  const search = useRef<HTMLInputElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const stacked = useMediaQuery('(max-width: 1100px)', false, { getInitialValueInEffect: false });
  useEffect(() => setShowsFaults(true), [state?.turn]);

  const lines = state?.lines ?? [];
  const judged = state?.judged ?? null;
  const first = places === null ? lines[0] : lines[places[0] ?? -1];
  const inHand = key ?? first?.key ?? null;
  const looked = useLook(desk, fileTable, judged === null ? null : (state?.turn ?? null), inHand);
  const unreadable = judged?.summary.unreadable ?? 0;
  const readable = lines.length - unreadable;

  const keep = async (): Promise<void> => {
    if (judged === null || keeping) return;
    setKeeping(true);
    try {
      const cells = await allRows<Cells>(lines.length, (from, count) => desk.cells(fileTable, from, count));
      const rows = cells.filter((_, at) => lines[at]?.state !== 'unreadable');
      const list: CalloutList = {
        ...{
          id: store.newId(),
          rev: 0,
          task: taskId,
          name: freshListName(name, lists, 'Callouts'),
          columns: [...judged.columns],
          person,
        },
        from: { file: name.slice(0, 400), at: isoWithOffset(new Date()) },
      };
      if (!(await run(await addList(list, rows, store.newId)))) return;
      onClose();
      goTo({ at: 'callouts', list: list.id }, 'replace');
    } catch (error) {
      session.refuse(name, refusalOf(error));
    } finally {
      setKeeping(false);
    }
  };
  const sortBy = useStable((column: string) =>
    look({ sort: column as LineView['sort'], down: view.sort === column && !view.down }),
  );
  const select = useStable((next: string) => setKey(next));
  const openRow = useStable((_key: string) => heading.current?.focus());
  const nothing = useStable(() => undefined);
  const paste = useStable((text: string) => {
    const bytes = pastedTable(text);
    if (bytes !== null) onOpenFile('Pasted rows', bytes);
  });
  const focusRow = (): void => root.current?.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
  const tooMany = readable > rowsMost;
  const keepLabel =
    unreadable === 0 ? `Keep as a list of ${countOf(readable, 'callout')}` : `Keep the ${readable} that can be read`;

  const table = (
    <section key="list" className="bw-pane-list" aria-label={`Callouts of ${name}`}>
      <CalloutTable
        lines={lines}
        places={places}
        units={units}
        view={view}
        onSort={sortBy}
        selected={inHand}
        onSelect={select}
        onOpen={openRow}
        onEdit={nothing}
        onRemove={nothing}
        onPaste={paste}
        chosen={none}
        onChoose={undefined}
        empty={
          state?.kind === 'judging' ? (
            <p>Reading {name}…</p>
          ) : state?.kind === 'cancelled' ? (
            <p>Judging {name} was cancelled. Nothing of it is kept.</p>
          ) : judged === null ? (
            <p>Nothing of {name} is shown.</p>
          ) : (
            <p>No callout is as asked for.</p>
          )
        }
      />
      <JudgedFoot state={state} onCancel={() => desk.cancel()} />
    </section>
  );
  const beside = (
    <div key="detail" className="bw-pane-detail" role="region" aria-label="Callout in hand" tabIndex={0}>
      {notice}
      {state?.refusal == null ? null : (
        <ErrorSummary
          name={name}
          verb="cannot be judged"
          refusal={state.refusal}
          remains="Nothing of it is kept."
          onClose={onClose}
        />
      )}
      {judged === null || judged.refusals.length === 0 || !showsFaults ? null : (
        <ErrorSummary
          name={name}
          verb="holds cells that cannot be read"
          refusal={{ code: 'unreadable-file', message: '', rows: judged.refusals }}
          remains={`${countOf(unreadable, 'row')} of ${lines.length} could not be judged; the others are below. Nothing of the file is kept yet.`}
          onClose={() => setShowsFaults(false)}
        />
      )}
      {judged === null || judged.notes.length === 0 ? null : <p className="bw-second">{judged.notes.join(' ')}</p>}
      {judged === null || judged.unknownColumns.length === 0 ? null : (
        <p className="bw-second">Columns that no rule reads: {judged.unknownColumns.join(', ')}.</p>
      )}
      {looked === null ? null : (
        <CalloutPane
          look={looked}
          accepted={[]}
          units={units}
          headingRef={heading}
          deeds={null}
          onSave={(file) => host.saveFile(file)}
          onRefused={(error) => session.refuse('The drawing', refusalOf(error))}
        />
      )}
    </div>
  );
  return (
    <div className="bw-callouts" ref={root}>
      <JudgedBar
        {...calloutSearch}
        view={view}
        onLook={look}
        searchRef={search}
        count={
          judged === null
            ? state?.kind === 'judging'
              ? 'judging…'
              : 'none'
            : `${places?.length ?? lines.length} of ${lines.length}`
        }
        judged={judged}
        {...turns}
        onDown={focusRow}
      >
        <b className="bw-callouts-file" title={name}>
          {name}
        </b>
        <span className="bw-second">judged, not kept</span>
        {judged === null || readable === 0 ? null : tooMany ? (
          <span className="bw-second">
            Too long to be kept: at most {rowsMost} rows are. Its judgement can be read here.
          </span>
        ) : (
          <Button variant="filled" aria-disabled={keeping || undefined} onClick={() => void keep()}>
            {keeping ? 'Keeping…' : keepLabel}
          </Button>
        )}
        <ChooseFile label="Judge another file…" onOpen={onOpenFile} />
        <Button onClick={onClose}>Close {name === 'Pasted rows' ? 'the pasted rows' : 'the file'}</Button>
      </JudgedBar>
      <div className="bw-split bw-callouts-split">{stacked ? [beside, table] : [table, beside]}</div>
    </div>
  );
}
