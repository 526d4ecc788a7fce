import { useCallback, useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import { Button, NativeSelect } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import type { Host } from '../../../shared-types/host.ts';
import type { LineView } from '../../../shared-types/inspection.ts';
import type { CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { cellNamed, stepCallouts, stepColumns } from '../../engine/inspection/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { refusalOf } from '../../store/session.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { useSession, useSessionState } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { useUndoRedo } from '../session/useUndoRedo.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { freshCode } from '../task/freshCode.ts';
import { useAct } from '../task/useAct.tsx';
import { useAsked } from '../task/useAsked.ts';
import { useOpenForm } from '../task/useOpenForm.ts';
import { countOf } from '../steps/words.ts';
import type { ReportHeading } from '../report/report.ts';
import { useStable } from '../catalog/useStable.ts';
import { addList, bringCalloutsIn, withdrawAcceptance } from './calloutActs.ts';
import { calloutAsking } from './calloutAsking.ts';
import { CalloutDialogs } from './CalloutDialogs.tsx';
import type { Accepting, CalloutQuestion } from './CalloutDialogs.tsx';
import { CalloutForm } from './CalloutForm.tsx';
import { BringTableIn } from '../judged/BringTableIn.tsx';
import { CalloutReport } from './CalloutReport.tsx';
import { CalloutPane } from './CalloutPane.tsx';
import { JudgedBar } from '../judged/JudgedBar.tsx';
import { JudgedFoot } from '../judged/JudgedFoot.tsx';
import { CalloutTable } from './CalloutTable.tsx';
import { isPlainView, useLineView, useOrder } from '../judged/lineView.ts';
import { ChooseFile } from '../judged/ChooseFile.tsx';
import type { OpenFile } from '../judged/ChooseFile.tsx';
import { keptDesk } from './desks.ts';
import { useTableState } from '../judged/useTableState.ts';
import { NoCallouts } from './NoCallouts.tsx';
import { StepsOfCallout } from './StepsOfCallout.tsx';
import { calloutSearch } from './calloutSearch.ts';
import { pastedTable } from '../judged/pastedTable.ts';
import { useLook } from '../judged/useLook.ts';
import { useTypedRows } from '../judged/useTypedRows.ts';

export interface CalloutsSheetProps {
  atHand: TaskAtHand;
  lists: readonly CalloutList[];
  /** The list shown; null where the task has none. */
  list: CalloutList | null;
  rows: readonly KeptCallout[];
  /** Key of the callout in hand. */
  callout: string | null;
  host: Host;
  units: UnitsShown;
  person: string;
  onOpenFile: OpenFile;
}

interface OpenedForm {
  list: CalloutList;
  isNewList: boolean;
  before: KeptCallout | null;
  initial: KeptCallout;
  heading: string;
}

const none: ReadonlySet<string> = new Set();

/** The lists of the task: the table, and beside it the callout in hand or the form about it. */
export function CalloutsSheet(props: CalloutsSheetProps) {
  const { atHand, lists, list, rows, callout, host, units, person, onOpenFile } = props;
  const store = useStore();
  const session = useSession();
  const turns = useUndoRedo();
  const sites = useTable('sites');
  const { paper } = useSessionState().preferences;
  const { run, notice } = useAct();
  const desk = keptDesk();
  const of = list?.id ?? '';
  const state = useTableState(desk, list?.id ?? null);
  const [view, look] = useLineView('callouts');
  const searched = useDeferredValue(view);
  const places = useOrder(desk, of, state, searched);
  const { open, leaveAsked, show, guarded, stay, left } = useOpenForm<OpenedForm>();
  const [over, setOver] = useState<'report' | null>(null);
  const [chosen, setChosen] = useState(none);
  const [asked, setAsked] = useState<CalloutQuestion | null>(null);
  const [accepting, setAccepting] = useState<Accepting | null>(null);
  const [said, setSaid] = useState('');
  const [focusAsked, setFocusAsked] = useState(0);
  const root = useRef<HTMLDivElement>(null);
  const search = useRef<HTMLInputElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const fileInput = useRef<HTMLInputElement>(null);
  const stacked = useMediaQuery('(max-width: 1100px)', false, { getInitialValueInEffect: false });

  const byKey = useMemo(() => new Map(rows.map((row) => [row.id, row])), [rows]);
  const typed = useTypedRows(list, rows);
  const lines = state?.lines ?? [];
  const shownCount = places?.length ?? lines.length;
  const first = places === null ? lines[0] : lines[places[0] ?? -1];
  const inHand = (callout === null ? undefined : byKey.get(callout)) ?? byKey.get(first?.key ?? '');
  const looked = useLook(desk, of, state?.judged == null ? null : state.turn, inHand?.id ?? null);
  const steps = useMemo(() => stepCallouts(atHand.plan), [atHand.plan]);
  const marked = useMemo(() => [...chosen].flatMap((key) => byKey.get(key) ?? []), [chosen, byKey]);
  const { task } = atHand;
  const siteName = task.site === undefined ? (task.siteText ?? null) : (sites.rows.get(task.site)?.name ?? null);
  const reported = useMemo<ReportHeading>(
    () => ({
      ...{ subject: 'callouts', name: list?.name ?? '', task: `${task.code} · ${task.name}`, site: siteName },
      ...{ from: list?.from?.file ?? null, person },
    }),
    [list, task, siteName, person],
  );
  const acceptedOf = useCallback((key: string) => byKey.get(key)?.accepted ?? [], [byKey]);
  const toRemove = marked.length > 1 ? marked : inHand === undefined ? [] : [inHand];

  const take = (key: string, on = of): void => {
    setSaid('');
    goTo({ at: 'callouts', list: on, callout: key }, 'replace');
  };
  const focusRow = (): void => setFocusAsked((before) => before + 1);
  useEffect(() => {
    if (focusAsked > 0) root.current?.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
  }, [focusAsked]);

  const newList = (name: string, columns: readonly string[]): CalloutList => ({
    ...{ id: store.newId(), rev: 0, task: atHand.id, name, columns: [...columns], person },
  });
  const add = (): void => {
    const on = list ?? newList('Callouts', ['id', 'thread', 'torqueMin', 'torqueMax']);
    const last = rows.at(-1)?.position ?? -1;
    const initial: KeptCallout = { id: store.newId(), rev: 0, list: on.id, position: last + 1, cells: {} };
    show({ list: on, isNewList: list === null, before: null, initial, heading: 'Add callout' });
  };
  const edit = (row: KeptCallout | undefined, cells: Record<string, string> = {}): void => {
    if (row === undefined || list === null) return;
    const { torque: _torque, tolerance: _tolerance, ...rest } = row.cells;
    const initial = Object.keys(cells).length === 0 ? row : { ...row, cells: { ...rest, ...cells } };
    show({ list, isNewList: false, before: row, initial, heading: `Edit ${cellNamed(row.cells, 'id')}` });
  };
  const copy = (row: KeptCallout): void => {
    if (list === null) return;
    const ids = new Set(rows.map(({ cells }) => cellNamed(cells, 'id')));
    const { accepted: _accepted, ...rest } = row;
    const column = Object.keys(row.cells).find((name) => name.trim().toLowerCase() === 'id') ?? 'id';
    const cells = { ...row.cells, [column]: freshCode(cellNamed(row.cells, 'id'), ids) };
    const last = rows.at(-1)?.position ?? -1;
    const initial: KeptCallout = { ...rest, id: store.newId(), rev: 0, position: last + 1, cells };
    show({ list, isNewList: false, before: null, initial, heading: `Add a copy of ${cellNamed(row.cells, 'id')}` });
  };
  const takeSteps = async (): Promise<void> => {
    if (steps.length === 0) return;
    const made = newList('Callouts of the steps', stepColumns);
    const title = `Take the callouts of ${countOf(steps.length, 'step')}`;
    if (await run(await addList(made, steps, store.newId, title))) goTo({ at: 'callouts', list: made.id }, 'replace');
  };
  useAsked(calloutAsking, (wish) => {
    if (wish === 'add') add();
    else if (wish === 'find') search.current?.focus();
    else if (wish === 'open-file') fileInput.current?.click();
    else if (wish === 'import') guarded(() => setAsked('import'));
    else if (wish === 'report') guarded(() => setOver('report'));
    else void guarded(() => void takeSteps());
  });

  const sortBy = useStable((key: string) =>
    look({ sort: key as LineView['sort'], down: view.sort === key && !view.down }),
  );
  const selectRow = useStable((key: string) => {
    if (key !== inHand?.id || open !== null) guarded(() => take(key));
  });
  const openRow = useStable((_key: string) => heading.current?.focus());
  const editRow = useStable((key: string) => edit(byKey.get(key)));
  const chooseRows = useStable((next: ReadonlySet<string>) => setChosen(next));
  const askRemove = useStable(() => setAsked('remove'));
  const paste = useStable((text: string) => {
    const bytes = pastedTable(text);
    if (bytes !== null) guarded(() => onOpenFile('Pasted rows', bytes));
  });

  const importTable = <Button onClick={() => guarded(() => setAsked('import'))}>Import…</Button>;
  const chooseFile = <ChooseFile label="Judge a file…" onOpen={onOpenFile} asks={fileInput} />;
  const form =
    open === null ? null : (
      <CalloutForm
        key={open.initial.id + (open.before === null ? ' new' : '')}
        {...open}
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
  const importing =
    asked !== 'import' && asked !== 'import-new' ? null : (
      <BringTableIn
        key={asked}
        target="callouts"
        list={asked === 'import' ? list : null}
        lists={lists}
        kept={asked === 'import' ? rows : []}
        newList={({ name, columns, from }) => ({ ...newList(name, columns), from })}
        host={host}
        bringIn={bringCalloutsIn}
        onBrought={(id) => goTo({ at: 'callouts', list: id }, 'replace')}
        onClose={() => setAsked(null)}
      >
        {list === null ? null : (
          <NativeSelect
            label="Into which list"
            data={[
              { value: 'import', label: list.name },
              { value: 'import-new', label: 'A new list' },
            ]}
            value={asked}
            onChange={({ currentTarget }) => setAsked(currentTarget.value === 'import' ? 'import' : 'import-new')}
          />
        )}
      </BringTableIn>
    );
  if (over === 'report' && list !== null && state?.judged != null)
    return (
      <CalloutReport
        of={list.id}
        heading={reported}
        judged={state.judged}
        count={state.lines.length}
        accepted={acceptedOf}
        host={host}
        paper={paper}
        onPaper={(next) => session.prefer({ paper: next })}
        onClose={() => setOver(null)}
      />
    );
  if (list === null)
    return (
      <div className="bw-pane-detail" onPaste={(event) => paste(event.clipboardData.getData('text/plain'))}>
        {notice}
        {importing}
        {form ?? (
          <NoCallouts steps={steps.length} onTakeSteps={() => void takeSteps()} onAdd={add}>
            {importTable}
            {chooseFile}
          </NoCallouts>
        )}
      </div>
    );

  const table = (
    <section key="list" className="bw-pane-list" aria-label="Callouts">
      <CalloutTable
        lines={lines}
        places={places}
        units={units}
        view={view}
        onSort={sortBy}
        selected={inHand?.id ?? null}
        onSelect={selectRow}
        onOpen={openRow}
        onEdit={editRow}
        onRemove={askRemove}
        onPaste={paste}
        typed={typed}
        chosen={chosen}
        onChoose={chooseRows}
        empty={
          state?.kind === 'judging' ? (
            <p>Judging the callouts…</p>
          ) : state?.refusal != null ? (
            <p role="alert">The list cannot be judged: {state.refusal.message}</p>
          ) : rows.length === 0 ? (
            <p>This list has no callouts yet.</p>
          ) : (
            <p>No callout is as asked for. {isPlainView(view) ? '' : 'Show all brings the others back.'}</p>
          )
        }
      />
      <JudgedFoot state={state}>
        {state?.judged == null ? null : <Button onClick={() => guarded(() => setOver('report'))}>Report…</Button>}
      </JudgedFoot>
    </section>
  );
  const beside = (
    <div key="detail" className="bw-pane-detail" role="region" aria-label="Callout in hand" tabIndex={0}>
      {notice}
      <p role="status" className="bw-second bw-callouts-said">
        {said}
      </p>
      {form !== null ? (
        form
      ) : inHand === undefined ? (
        <p className="bw-second">Take a callout in hand to see what is decided of it, and why.</p>
      ) : looked === null ? (
        <p className="bw-second" role="status">
          {state?.refusal == null ? 'Judging…' : state.refusal.message}
        </p>
      ) : (
        <CalloutPane
          look={looked}
          accepted={inHand.accepted ?? []}
          units={units}
          headingRef={heading}
          deeds={
            <>
              <Button size="xs" aria-keyshortcuts="F2" onClick={() => edit(inHand)}>
                Edit
              </Button>
              <Button size="xs" onClick={() => setAsked('send')}>
                Steps take it…
              </Button>
              <Button size="xs" onClick={() => copy(inHand)}>
                Copy
              </Button>
              <Button size="xs" aria-keyshortcuts="Delete" onClick={() => setAsked('remove')}>
                Remove{marked.length > 1 ? ` ${marked.length}` : ''}…
              </Button>
              {marked.length < 2 ? null : (
                <Button size="xs" onClick={() => setAsked('accept')}>
                  Accept findings of {marked.length}…
                </Button>
              )}
            </>
          }
          steps={<StepsOfCallout task={atHand.id} callout={inHand} list={list.name} units={units} />}
          onAccept={(finding) => setAccepting({ finding, of: inHand })}
          onWithdraw={(one) => void run(withdrawAcceptance(inHand, one))}
          onTry={(cells) => edit(inHand, cells)}
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
        count={`${shownCount} of ${rows.length}`}
        judged={state?.judged ?? null}
        {...turns}
        onDown={focusRow}
      >
        <NativeSelect
          aria-label="List of callouts"
          className="bw-callouts-list"
          data={lists.map(({ id, name }) => ({ value: id, label: name }))}
          value={list.id}
          onChange={({ currentTarget: { value } }) => guarded(() => goTo({ at: 'callouts', list: value }))}
        />
        <Button onClick={() => setAsked('rename')}>Rename list…</Button>
        <Button onClick={() => setAsked('remove-list')}>Remove list…</Button>
        {importTable}
        {chooseFile}
        {steps.length === 0 ? null : (
          <Button onClick={() => guarded(() => void takeSteps())}>Take the callouts of the steps</Button>
        )}
        <Button variant="filled" onClick={add}>
          Add callout
        </Button>
      </JudgedBar>
      <div className="bw-split bw-callouts-split">{stacked ? [beside, table] : [table, beside]}</div>
      {importing}
      <CalloutDialogs
        asked={asked}
        accepting={accepting}
        list={list}
        rows={rows}
        toRemove={toRemove}
        inHand={inHand}
        onSent={setSaid}
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
