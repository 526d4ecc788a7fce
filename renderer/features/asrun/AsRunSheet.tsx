import { useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import { Button } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import type { Host } from '../../../shared-types/host.ts';
import type { AsRunBeside, KnownTool, LineView } from '../../../shared-types/inspection.ts';
import type { Finding } from '../../../shared-types/judged.ts';
import type { AsRunList, CalloutList, KeptAsRun } from '../../../shared-types/records/judgedLists.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { placeAddress } from '../../store/place.ts';
import { refusalOf } from '../../store/session.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { fileTable } from '../callouts/desks.ts';
import { useStable } from '../catalog/useStable.ts';
import { BringTableIn } from '../judged/BringTableIn.tsx';
import { ChooseFile } from '../judged/ChooseFile.tsx';
import type { OpenFile } from '../judged/ChooseFile.tsx';
import { JudgedBar } from '../judged/JudgedBar.tsx';
import { JudgedFoot } from '../judged/JudgedFoot.tsx';
import { isPlainView, useLineView, useOrder } from '../judged/lineView.ts';
import { pastedTable } from '../judged/pastedTable.ts';
import { useLook } from '../judged/useLook.ts';
import { useTypedRows } from '../judged/useTypedRows.ts';
import { useTableState } from '../judged/useTableState.ts';
import { useSession } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { useUndoRedo } from '../session/useUndoRedo.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { useLearning } from '../watchOuts/useLearning.ts';
import { useAct } from '../task/useAct.tsx';
import { useAsked } from '../task/useAsked.ts';
import { useOpenForm } from '../task/useOpenForm.ts';
import { AsRunForm } from './AsRunForm.tsx';
import { AsRunPane } from './AsRunPane.tsx';
import { AsRunTable } from './AsRunTable.tsx';
import { FileName, FileNotes, NothingShown } from './FileNotes.tsx';
import { ListChoice } from './ListChoice.tsx';
import { NoRecords } from './NoRecords.tsx';
import { patternOf } from './patternOf.ts';
import { bringRecordsIn, judgeAgainst, recordName, withdrawAcceptance } from './recordActs.ts';
import { RecordDeeds } from './RecordDeeds.tsx';
import { RecordDialogs } from './RecordDialogs.tsx';
import type { AcceptingRecord, RecordQuestion } from './RecordDialogs.tsx';
import { recordAsking } from './recordAsking.ts';
import { fileRecordDesk, keptRecordDesk } from './recordDesks.ts';
import { recordSearch } from './recordSearch.ts';
import { copyOfRecord, firstList, nextRecord } from './nextRecord.ts';
import { ToolOfAll } from './ToolOfAll.tsx';
import { useExample } from './useExample.ts';
import { useKeepFile } from './useKeepFile.tsx';

export interface AsRunSheetProps {
  atHand: TaskAtHand;
  lists: readonly AsRunList[];
  /** The list shown; null where the task has none. */
  list: AsRunList | null;
  rows: readonly KeptAsRun[];
  /** Key of the record in hand. */
  record: string | null;
  calloutLists: readonly CalloutList[];
  /** The list of callouts that the records are judged against. */
  against: CalloutList | null;
  beside: AsRunBeside;
  tools: readonly KnownTool[];
  host: Host;
  units: UnitsShown;
  person: string;
  today: string;
  /** Name of a file that is judged and not kept; null where the kept lists are shown. */
  file: string | null;
  onOpenFile: OpenFile;
  onCloseFile: () => void;
}

interface OpenedForm {
  list: AsRunList;
  isNewList: boolean;
  before: KeptAsRun | null;
  initial: KeptAsRun;
  heading: string;
}

const none: ReadonlySet<string> = new Set();

/** Records of a kept list or of a file: the table, and beside it the record in hand, a tool's values, or the form. */
export function AsRunSheet(props: AsRunSheetProps) {
  const { atHand, lists, list, rows, record, calloutLists, against, beside } = props;
  const { tools, host, units, person, today, file, onOpenFile, onCloseFile } = props;
  const store = useStore();
  const session = useSession();
  const turns = useUndoRedo();
  const interfaces = useTable('interfaces');
  const steps = useTable('steps');
  const { run, notice } = useAct();
  const learn = useLearning(atHand.task);
  const takeExample = useExample({ code: atHand.task.code, task: atHand.id, person, run });
  const isFile = file !== null;
  const desk = isFile ? fileRecordDesk() : keptRecordDesk();
  const of = isFile ? fileTable : (list?.id ?? '');
  const state = useTableState(desk, of === '' ? null : of);
  const [view, look] = useLineView('asrun');
  const searched = useDeferredValue(view);
  const places = useOrder(desk, of, state, searched);
  const { open, leaveAsked, show, guarded, stay, left } = useOpenForm<OpenedForm>();
  const keepFile = useKeepFile({
    desk,
    of,
    state,
    name: file ?? '',
    lists,
    task: atHand.id,
    person,
    against,
    onKept: onCloseFile,
  });
  const [fileKey, setFileKey] = useState<string | null>(null);
  const [tool, setTool] = useState<string | null>(null);
  const [chosen, setChosen] = useState(none);
  const [asked, setAsked] = useState<RecordQuestion | null>(null);
  const [accepting, setAccepting] = useState<AcceptingRecord | null>(null);
  const [focusAsked, setFocusAsked] = useState(0);
  const root = useRef<HTMLDivElement>(null);
  const search = useRef<HTMLInputElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const fileInput = useRef<HTMLInputElement>(null);
  const stacked = useMediaQuery('(max-width: 1100px)', false, { getInitialValueInEffect: false });

  const byKey = useMemo(() => new Map(rows.map((row) => [row.id, row])), [rows]);
  const typed = useTypedRows(list, rows);
  const { lines = [], judged = null } = state ?? {};
  const first = places === null ? lines[0] : lines[places[0] ?? -1];
  const wanted = isFile ? fileKey : record !== null && byKey.has(record) ? record : null;
  const handKey = wanted ?? first?.key ?? null;
  const inHand = isFile || handKey === null ? undefined : byKey.get(handKey);
  const looked = useLook(desk, of, judged === null ? null : (state?.turn ?? null), handKey);
  const marked = useMemo(() => [...chosen].flatMap((key) => byKey.get(key) ?? []), [chosen, byKey]);
  const toRemove = marked.length > 1 ? marked : inHand === undefined ? [] : [inHand];
  const taskSteps = useMemo(
    () => [...steps.rows.values()].filter((step) => step.task === atHand.id),
    [steps.rows, atHand.id],
  );

  const take = (key: string, on = of): void => {
    setTool(null);
    if (isFile) setFileKey(key);
    else goTo({ at: 'asrun', list: on, record: key }, 'replace');
  };
  const focusRow = (): void => setFocusAsked((before) => before + 1);
  useEffect(() => {
    if (focusAsked > 0) root.current?.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
  }, [focusAsked]);

  const add = (): void => {
    if (isFile) return;
    const on = list ?? firstList({ id: store.newId(), task: atHand.id, person }, against);
    const initial = nextRecord(on.id, rows, store.newId());
    setTool(null);
    show({ list: on, isNewList: list === null, before: null, initial, heading: 'Add record' });
  };
  const edit = (row: KeptAsRun | undefined): void => {
    if (row === undefined || list === null) return;
    setTool(null);
    show({ list, isNewList: false, before: row, initial: row, heading: `Edit ${recordName(row.cells)}` });
  };
  const copy = (row: KeptAsRun): void => {
    if (list === null) return;
    const initial = copyOfRecord(row, rows, store.newId());
    show({
      ...{ list, isNewList: false, before: null, initial },
      heading: `Add a copy of ${recordName(row.cells)}: change position, cycle or pass`,
    });
  };
  useAsked(recordAsking, (wish) => {
    if (wish === 'add') add();
    else if (wish === 'find') search.current?.focus();
    else if (wish === 'open-file') fileInput.current?.click();
    else guarded(() => setTool(looked?.row?.serial ?? ''));
  });

  const sortBy = useStable((key: string) =>
    look({ sort: key as LineView['sort'], down: view.sort === key && !view.down }),
  );
  const selectRow = useStable((key: string) => {
    if (key !== handKey || open !== null || tool !== null) guarded(() => take(key));
  });
  const openRow = useStable((_key: string) => heading.current?.focus());
  const editRow = useStable((key: string) => edit(byKey.get(key)));
  const askRemove = useStable(() => setAsked(isFile ? null : 'remove'));
  const paste = useStable((text: string) => {
    const bytes = pastedTable(text);
    if (bytes !== null) guarded(() => onOpenFile('Pasted rows', bytes));
  });

  const chooseFile = (
    <ChooseFile label={isFile ? 'Judge another file…' : 'Judge a file…'} onOpen={onOpenFile} asks={fileInput} />
  );
  const importing =
    asked !== 'import' ? null : (
      <BringTableIn
        target="as-run"
        context={{ callouts: beside.callouts.rows.map(({ cells }) => cells) }}
        list={list}
        lists={lists}
        kept={rows}
        newList={(made) => ({ ...firstList({ id: store.newId(), task: atHand.id, person }, against), ...made })}
        host={host}
        bringIn={bringRecordsIn}
        onBrought={(id) => goTo({ at: 'asrun', list: id }, 'replace')}
        onClose={() => setAsked(null)}
      />
    );
  const importButton = <Button onClick={() => guarded(() => setAsked('import'))}>Import…</Button>;
  const form =
    open === null ? null : (
      <AsRunForm
        key={open.initial.id + (open.before === null ? ' new' : '')}
        {...open}
        rows={rows}
        beside={beside}
        units={units}
        leaveAsked={leaveAsked}
        onStay={stay}
        onSaved={(id) => {
          if (left()) return;
          take(id, open.list.id);
          focusRow();
        }}
        onLeave={() => {
          if (!left()) focusRow();
        }}
      />
    );
  if (list === null && !isFile)
    return (
      <div className="bw-pane-detail" onPaste={(event) => paste(event.clipboardData.getData('text/plain'))}>
        {notice}
        {form ?? (
          <NoRecords
            onAdd={add}
            onExample={takeExample}
            hasCallouts={calloutLists.length > 0}
            calloutsAddress={placeAddress({ at: 'callouts' })}
          >
            {importButton}
            {chooseFile}
          </NoRecords>
        )}
        {importing}
      </div>
    );

  const table = (
    <section key="list" className="bw-pane-list" aria-label={isFile ? `Records of ${file}` : 'Records'}>
      <AsRunTable
        lines={lines}
        places={places}
        units={units}
        view={view}
        onSort={sortBy}
        selected={handKey}
        onSelect={selectRow}
        onOpen={openRow}
        onEdit={editRow}
        onRemove={askRemove}
        onPaste={paste}
        typed={isFile ? undefined : typed}
        chosen={isFile ? none : chosen}
        onChoose={isFile ? undefined : setChosen}
        empty={<NothingShown state={state} file={file} isPlain={isPlainView(view)} />}
      />
      <JudgedFoot state={state} onCancel={isFile ? () => desk.cancel() : undefined} />
    </section>
  );
  const besideTable = (
    <div key="detail" className="bw-pane-detail" role="region" aria-label="Record in hand" tabIndex={0}>
      {notice}
      <FileNotes state={state} name={file} onClose={onCloseFile} />
      {form !== null ? (
        form
      ) : tool !== null ? (
        <ToolOfAll
          serial={tool}
          onSerial={setTool}
          tools={tools}
          task={atHand.id}
          units={units}
          person={person}
          today={today}
          headingRef={heading}
          run={run}
          onClose={() => setTool(null)}
        />
      ) : handKey === null ? (
        <p className="bw-second">Take a record in hand to see what is decided of it, and why.</p>
      ) : looked === null || judged === null ? (
        <p className="bw-second" role="status">
          {state?.refusal == null ? 'Judging…' : state.refusal.message}
        </p>
      ) : (
        <AsRunPane
          look={looked}
          accepted={inHand?.accepted ?? []}
          lines={lines}
          judged={judged}
          pattern={patternOf(looked, { steps: taskSteps, interfaces: interfaces.rows, site: atHand.task.site })}
          units={units}
          headingRef={heading}
          deeds={
            inHand === undefined ? null : (
              <RecordDeeds
                marked={marked.length}
                onEdit={() => edit(inHand)}
                onCopy={() => copy(inHand)}
                onRemove={() => setAsked('remove')}
                onAccept={() => setAsked('accept')}
                onWatchOut={() => learn({ in: 'as-run', cells: inHand.cells, kind: 'as-run', record: inHand.id })}
              />
            )
          }
          {...(inHand === undefined
            ? {}
            : {
                onAccept: (finding: Finding) => setAccepting({ finding, of: inHand }),
                onWithdraw: (one) => void run(withdrawAcceptance(inHand, one)),
              })}
          onSelect={take}
          onTool={setTool}
          onSave={(saved) => host.saveFile(saved)}
          onRefused={(error) => session.refuse('The drawing', refusalOf(error))}
        />
      )}
    </div>
  );
  return (
    <div className="bw-callouts bw-asrun" ref={root}>
      <JudgedBar
        {...recordSearch}
        view={view}
        onLook={look}
        searchRef={search}
        count={`${places?.length ?? lines.length} of ${lines.length}`}
        judged={judged}
        {...turns}
        onDown={focusRow}
      >
        {isFile ? (
          <>
            <FileName name={file} />
            {keepFile.button}
            {chooseFile}
            <Button onClick={onCloseFile}>Close {file === 'Pasted rows' ? 'the pasted rows' : 'the file'}</Button>
          </>
        ) : (
          <>
            <ListChoice
              lists={lists}
              list={of}
              onList={(id) => guarded(() => goTo({ at: 'asrun', list: id }))}
              calloutLists={calloutLists}
              against={against?.id ?? ''}
              onAgainst={(next) => {
                if (list !== null) void run(judgeAgainst(list, next));
              }}
            />
            <Button onClick={() => setAsked('rename')}>Rename list…</Button>
            <Button onClick={() => setAsked('remove-list')}>Remove list…</Button>
            {importButton}
            {chooseFile}
            <Button onClick={() => guarded(() => setTool(looked?.row?.serial ?? ''))}>Values of a tool…</Button>
            <Button variant="filled" onClick={add}>
              Add record
            </Button>
          </>
        )}
      </JudgedBar>
      <div className="bw-split bw-callouts-split">{stacked ? [besideTable, table] : [table, besideTable]}</div>
      {importing}
      <RecordDialogs
        asked={asked}
        accepting={accepting}
        list={list}
        rows={rows}
        toRemove={toRemove}
        person={person}
        units={units}
        run={run}
        onRemoved={() => {
          setChosen(none);
          focusRow();
        }}
        onClose={() => {
          setAsked(null);
          setAccepting(null);
        }}
      />
    </div>
  );
}
