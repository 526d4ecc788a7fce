import { useCallback, useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import { Button } from '@mantine/core';
import type { FileToSave, Host } from '../../../shared-types/host.ts';
import type { BenchNote } from '../../../shared-types/records/note.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { Place } from '../../store/place.ts';
import { refusalOf } from '../../store/session.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { useSession, useSessionState } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { useAct } from '../task/useAct.tsx';
import { useAsked } from '../task/useAsked.ts';
import { answerText } from './answerText.ts';
import { benchAsking } from './benchCommands.ts';
import { entriesOf, leaveEntries } from './benchDraft.ts';
import { BenchForm } from './BenchForm.tsx';
import { BenchRail } from './BenchRail.tsx';
import { BenchResult } from './BenchResult.tsx';
import type { Typed } from './benchSheet.ts';
import { copyText } from './copyText.ts';
import { KeepDialog } from './KeepDialog.tsx';
import { KeptNote } from './KeptNote.tsx';
import { keepNote, notesOf, removeNote } from './noteActs.ts';
import { useOutcome } from './useOutcome.ts';
import { benchSheet } from './sheets/index.ts';
import { ToolChoice } from './ToolChoice.tsx';
import '../steps/steps.css';
import '../task/task.css';
import './bench.css';

export interface BenchHallProps {
  place: Extract<Place, { at: 'bench' }>;
  host: Host;
  units: UnitsShown;
  now: () => Date;
}

/** Computations for once: what there are, the entries of one, and its result with all that stands beside it. */
export function BenchHall({ place, host, units, now }: BenchHallProps) {
  const notes = useTable('notes');
  const { atHand } = useSessionState();
  const task = atHand?.task ?? null;
  const kept = place.note === undefined ? undefined : notes.rows.get(place.note);
  const sheet = benchSheet(kept?.sheet ?? place.sheet);
  const { run, notice } = useAct();
  const listed = useMemo(() => notesOf(notes.rows.values(), atHand?.id ?? null), [notes, atHand]);
  return (
    <div className="bw-split bw-bench">
      <BenchRail
        current={sheet.id}
        note={kept?.id ?? null}
        notes={listed}
        keptWith={task === null ? 'Kept with tasks' : `Kept with ${task.code}`}
      />
      {kept === undefined ? (
        <Computation key={sheet.id} sheetId={sheet.id} host={host} units={units} now={now} run={run} notice={notice} />
      ) : (
        <KeptNote
          note={kept}
          notice={notice}
          onAgain={() => {
            leaveEntries(kept.sheet, kept.typed);
            goTo({ at: 'bench', sheet: kept.sheet });
          }}
          onRemove={async () => {
            if (await run(removeNote(kept))) goTo({ at: 'bench', sheet: kept.sheet }, 'replace');
          }}
        />
      )}
    </div>
  );
}

interface ComputationProps extends Pick<BenchHallProps, 'host' | 'units' | 'now'> {
  sheetId: string;
  run: ReturnType<typeof useAct>['run'];
  notice: ReturnType<typeof useAct>['notice'];
}

const leftAfterMs = 250;

function Computation({ sheetId, host, units, now, run, notice }: ComputationProps) {
  const store = useStore();
  const session = useSession();
  const { atHand } = useSessionState();
  const tasks = useTable('tasks');
  const sheet = benchSheet(sheetId);
  const [entries, setEntries] = useState(() => entriesOf(sheet));
  const [asked, setAsked] = useState(0);
  const [keeping, setKeeping] = useState(false);
  const [said, setSaid] = useState('');
  const { typed, isExample } = entries;
  const later = useDeferredValue(typed);
  const outcome = useOutcome(sheet, later, units);
  const answer = outcome.is === 'answer' ? outcome.answer : null;

  useLeftEntries(sheetId, isExample ? null : typed);

  const type = (key: string, text: string): void => {
    setEntries((before) => ({ typed: { ...before.typed, [key]: text }, isExample: false }));
    setSaid('');
  };
  const fill = (more: Typed): void => {
    setEntries((before) => ({ typed: { ...before.typed, ...more }, isExample: false }));
    setSaid('Taken from the catalog.');
  };
  const clear = (): void => {
    const choices = sheet.fields.filter(({ is }) => is === 'choice').map(({ key }) => [key, sheet.first[key] ?? '']);
    setEntries({ typed: Object.fromEntries(choices), isExample: false });
    setAsked(0);
    setSaid('Cleared.');
  };
  const whole = (): boolean => {
    if (answer !== null) return true;
    setAsked((before) => before + 1);
    return false;
  };
  const copy = (): void => {
    if (!whole() || answer === null) return;
    setSaid(copyText(answerText(sheet, typed, answer)) ? 'Copied as text.' : 'The browser did not take it.');
  };
  const keep = (): void => {
    if (whole()) setKeeping(true);
  };
  useAsked(benchAsking, (wish) => (wish === 'copy' ? copy() : wish === 'keep' ? keep() : clear()));

  const keepWith = async (task: string, name: string): Promise<void> => {
    if (answer === null) return;
    setKeeping(false);
    const note: BenchNote = {
      ...{ id: store.newId(), rev: 0, task, sheet: sheet.id, name },
      keptAt: isoWithOffset(now()),
      typed: Object.fromEntries(Object.entries(typed).filter(([, text]) => text !== '')),
      text: answerText(sheet, typed, answer),
    };
    if (await run(keepNote(note))) setSaid(`Kept with ${tasks.rows.get(task)?.code ?? 'the task'}.`);
  };
  const onSave = useCallback((file: FileToSave) => host.saveFile(file), [host]);
  const onRefused = useCallback((error: unknown) => session.refuse('The drawing', refusalOf(error)), [session]);
  const code = atHand?.task.code;

  return (
    <>
      <BenchForm
        sheet={sheet}
        typed={typed}
        isExample={isExample}
        faults={outcome.is === 'answer' || outcome.is === 'working' ? [] : outcome.faults}
        asked={asked}
        onType={type}
        onSend={keep}
        taken={sheet.fields.some(({ key }) => key === 'toolMax') ? <ToolChoice onTake={fill} /> : undefined}
      >
        {notice}
        <div className="bw-form-foot">
          <Button type="submit" variant="filled" aria-haspopup="dialog">
            {code === undefined ? 'Keep with a task…' : `Keep with ${code}…`}
          </Button>
          <Button onClick={copy}>Copy</Button>
          <Button onClick={clear}>Clear</Button>
        </div>
        <p role="status" className="bw-second bw-small">
          {said}
        </p>
      </BenchForm>
      <section className="bw-bench-result" aria-label={`Result: ${sheet.name}`} tabIndex={0}>
        <h1>{sheet.name}</h1>
        {answer === null ? (
          <div className="bw-bench-open" role="status">
            {outcome.is === 'working' ? (
              <p>Drawing the settings…</p>
            ) : outcome.is === 'missing' ? (
              <p>Put in, to see the result: {outcome.labels.join(', ')}.</p>
            ) : (
              <>
                <p>
                  <b>Not computed.</b>
                </p>
                <ul>
                  {outcome.is === 'refused'
                    ? outcome.faults.map(({ message }) => <li key={message}>{message}</li>)
                    : null}
                </ul>
              </>
            )}
          </div>
        ) : (
          <BenchResult answer={answer} onSave={onSave} onRefused={onRefused} />
        )}
      </section>
      {keeping && answer !== null ? (
        <KeepDialog
          tasks={[...tasks.rows.values()]}
          task={atHand?.id ?? null}
          name={`${sheet.name}, ${answer.value}`}
          onKeep={(task, name) => void keepWith(task, name)}
          onClose={() => setKeeping(false)}
        />
      ) : null}
    </>
  );
}

/** Entries outlive the hall and the page: written a moment after the last key, and at once when the sheet is left. */
function useLeftEntries(sheetId: string, typed: Typed | null): void {
  const latest = useRef(typed);
  useEffect(() => {
    latest.current = typed;
    const timer = setTimeout(() => typed !== null && leaveEntries(sheetId, typed), leftAfterMs);
    return () => clearTimeout(timer);
  }, [sheetId, typed]);
  useEffect(
    () => () => {
      if (latest.current !== null) leaveEntries(sheetId, latest.current);
    },
    [sheetId],
  );
}
