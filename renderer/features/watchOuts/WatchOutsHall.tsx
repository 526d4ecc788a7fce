import { useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import type { KeyboardEvent } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { learnedIn } from '../../../shared-types/records/watchOut.ts';
import type { WatchOut } from '../../../shared-types/records/watchOut.ts';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import { watchOutsOfStep } from '../../engine/watchOuts/index.ts';
import type { Place } from '../../store/place.ts';
import type { Act } from '../../store/store.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { goTo } from '../session/usePlace.ts';
import { useTable } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { Unread } from '../task/SheetState.tsx';
import { TwoPanes } from '../task/TwoPanes.tsx';
import { useAct } from '../task/useAct.tsx';
import { useAsked } from '../task/useAsked.ts';
import { useOpenForm } from '../task/useOpenForm.ts';
import { RetireWatchOut } from './RetireWatchOut.tsx';
import type { Touchable } from './ties.ts';
import { useTouchable } from './useTouchable.ts';
import { bringBackWatchOut, retireWatchOut } from './watchOutActs.ts';
import { watchOutAsking } from './watchOutAsking.ts';
import type { WatchOutBegun } from './watchOutAsking.ts';
import { WatchOutDetail } from './WatchOutDetail.tsx';
import { WatchOutForm } from './WatchOutForm.tsx';
import { learnedWords, plainView, shownWatchOuts, watchOutColumns, watchOutGridRows } from './watchOutRows.tsx';
import type { WatchOutView } from './watchOutRows.tsx';
import '../judged/judged.css';
import './watchOuts.css';

export interface WatchOutsHallProps {
  place: Extract<Place, { at: 'watchouts' }>;
  person: string;
  now: () => Date;
}

type Open = { before: WatchOut } | { begun: WatchOutBegun; time: number };

const tos = [
  { value: 'all', label: 'Touching anything' },
  { value: 'interface', label: 'Interfaces' },
  { value: 'item', label: 'Items' },
  { value: 'step', label: 'Steps' },
];
const froms = [
  { value: 'all', label: 'Learned anywhere' },
  ...learnedIn.map((value) => ({ value, label: learnedWords[value] })),
];
const states = [
  { value: 'said', label: 'Said' },
  { value: 'retired', label: 'Retired' },
  { value: 'all', label: 'Said and retired' },
];

function saidBefore(record: WatchOut, known: Touchable): { task: string; steps: string[] }[] {
  const byTask = new Map<string, string[]>();
  for (const step of known.steps.values()) {
    const task = known.tasks.get(step.task);
    if (task === undefined) continue;
    const at = known.interfaces.get(step.interface ?? '') ?? null;
    // Its own words alone: that the step says them of itself is no reason.
    const bare = { ...step, watchOuts: [] };
    const quiet = at === null ? null : { ...at, watchOuts: [] };
    if (watchOutsOfStep({ step: bare, at: quiet, task }, [record]).length === 0) continue;
    byTask.set(task.id, [...(byTask.get(task.id) ?? []), step.name ?? step.code]);
  }
  return [...byTask].map(([id, steps]) => ({ task: known.tasks.get(id)?.name ?? '', steps }));
}

/** Everything that was learned and is carried to every step, card and page that touches the same thing. */
export function WatchOutsHall({ place, person, now }: WatchOutsHallProps) {
  const records = useTable('watchOuts');
  const { known, ready, fault } = useTouchable();
  const { run, notice } = useAct();
  const form = useOpenForm<Open>();
  const [view, setView] = useState<WatchOutView>(plainView);
  const [retiring, setRetiring] = useState<WatchOut | null>(null);
  const [said, setSaid] = useState('');
  const heading = useRef<HTMLHeadingElement>(null);
  const search = useRef<HTMLInputElement>(null);
  const focusHeading = useRef(false);
  const asked = useDeferredValue(view);
  const shown = useMemo(() => shownWatchOuts(records.rows.values(), asked, known), [records.rows, asked, known]);
  const rows = useMemo(() => watchOutGridRows(shown, known), [shown, known]);
  const inHand = records.rows.get(place.watchOut ?? '') ?? shown[0] ?? null;
  const before = useMemo(() => (inHand === null ? [] : saidBefore(inHand, known)), [inHand, known]);
  useEffect(() => {
    if (!focusHeading.current || heading.current === null) return;
    focusHeading.current = false;
    heading.current.focus();
  });
  const write = (begun: WatchOutBegun): void => form.show({ begun, time: Date.now() });
  const whole = records.ready && ready;
  useAsked(watchOutAsking, (wish) => (wish.kind === 'write' ? write(wish.begun) : search.current?.focus()), whole);

  const unread = records.fault ?? fault;
  if (unread !== null) return <Unread what="watch-outs" reason={unread} />;
  if (!whole)
    return (
      <p className="bw-task-open" role="status">
        Reading the watch-outs…
      </p>
    );
  const close = (): void => {
    if (!form.left()) focusHeading.current = true;
  };
  const done = async (act: Act): Promise<void> => {
    if (await run(act)) setSaid(`${act.title}: done.`);
  };
  const edit = (): void => {
    if (inHand !== null) form.show({ before: inHand });
  };
  const onTableKey = (event: KeyboardEvent): void => {
    if ((event.key !== 'F2' && event.key !== 'Delete') || inHand === null) return;
    event.preventDefault();
    event.stopPropagation();
    if (event.key === 'F2') edit();
    else if (inHand.retired === undefined) form.guarded(() => setRetiring(inHand));
  };
  const { open } = form;
  const pane = () => {
    if (open !== null)
      return (
        <WatchOutForm
          key={'before' in open ? open.before.id : open.time}
          from={open}
          known={known}
          today={isoWithOffset(now()).slice(0, 10)}
          person={person}
          leaveAsked={form.leaveAsked}
          onStay={form.stay}
          onLeave={close}
          onSaved={(record) => {
            setSaid('The watch-out is saved.');
            goTo({ at: 'watchouts', watchOut: record.id }, 'replace');
            close();
          }}
        />
      );
    if (inHand === null)
      return (
        <div className="bw-task-sheet">
          <h1 ref={heading} tabIndex={-1} className="bw-heading">
            {records.rows.size === 0 ? 'No watch-out is kept yet' : 'None is as asked for'}
          </h1>
          <p>
            A watch-out is something learned: tied to an interface, an item or a step it is said before every step that
            touches the same, in every task, and printed on its cards. One can be written here, from an as-run record,
            from a finding, and from the page of the thing itself.
          </p>
          <div>
            <Button variant="filled" onClick={() => write({})}>
              Write a watch-out
            </Button>
          </div>
        </div>
      );
    return (
      <WatchOutDetail
        record={inHand}
        known={known}
        saidBefore={before}
        headingRef={heading}
        actions={
          <div className="bw-task-buttons">
            <Button size="xs" onClick={edit} aria-keyshortcuts="F2">
              Edit watch-out
            </Button>
            {inHand.retired === undefined ? (
              <Button size="xs" aria-keyshortcuts="Delete" onClick={() => setRetiring(inHand)}>
                Retire…
              </Button>
            ) : (
              <Button size="xs" onClick={() => void done(bringBackWatchOut(inHand))}>
                Bring back
              </Button>
            )}
          </div>
        }
      />
    );
  };
  const filters = (
    <div className="bw-watchout-filters">
      <TextInput
        ref={search}
        type="search"
        size="xs"
        aria-label="Find in watch-outs: words, what they touch, who, when"
        placeholder="Find…"
        value={view.search}
        onChange={({ currentTarget: { value } }) => setView({ ...view, search: value })}
      />
      <NativeSelect
        size="xs"
        aria-label="What they touch"
        data={tos}
        value={view.to}
        onChange={({ currentTarget: { value } }) => setView({ ...view, to: value as WatchOutView['to'] })}
      />
      <NativeSelect
        size="xs"
        aria-label="Where they were learned"
        data={froms}
        value={view.from}
        onChange={({ currentTarget: { value } }) => setView({ ...view, from: value as WatchOutView['from'] })}
      />
      <NativeSelect
        size="xs"
        aria-label="Said or retired"
        data={states}
        value={view.state}
        onChange={({ currentTarget: { value } }) => setView({ ...view, state: value as WatchOutView['state'] })}
      />
      <Button size="xs" variant={open === null ? 'filled' : 'default'} onClick={() => write({})}>
        Write a watch-out
      </Button>
    </div>
  );
  return (
    <>
      <TwoPanes
        heading="Watch-outs"
        region="Watch-out in hand"
        said={`${shown.length} of ${countOf(records.rows.size, 'watch-out')}`}
        buttons={filters}
        inHand={open === null ? (inHand?.id ?? null) : 'form'}
        onTableKey={onTableKey}
        table={
          <RowGrid
            label="Watch-outs"
            columns={watchOutColumns}
            rows={rows}
            selected={open !== null && 'begun' in open ? null : (inHand?.id ?? null)}
            onSelect={(id) => form.guarded(() => goTo({ at: 'watchouts', watchOut: id }, 'replace'))}
            onOpen={() => heading.current?.focus()}
            empty={
              records.rows.size === 0
                ? 'Watch-outs appear here as soon as one is written.'
                : 'No watch-out is as asked for.'
            }
          />
        }
      >
        {notice}
        {pane()}
      </TwoPanes>
      <span role="status" className="bw-hidden">
        {said}
      </span>
      {retiring === null ? null : (
        <RetireWatchOut
          record={retiring}
          person={person}
          onRetire={(given) => {
            setRetiring(null);
            void done(retireWatchOut(retiring, { ...given, at: isoWithOffset(now()) }));
          }}
          onClose={() => setRetiring(null)}
        />
      )}
    </>
  );
}
