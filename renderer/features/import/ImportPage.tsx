import { useEffect, useMemo, useRef, useState } from 'react';
import { Button } from '@mantine/core';
import '../../components/RecordForm/RecordForm.css';
import { FieldErrors } from '../../components/FieldErrors/FieldErrors.tsx';
import { conflictsIn, reasonOf } from '../../components/RecordForm/refusedSave.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { freeCode, freeName } from '../../engine/records/freeNames.ts';
import { holdsTask, mergeOfPlan } from '../../engine/records/mergeOfPlan.ts';
import type { KeptWork, PlanPut } from '../../engine/records/mergeOfPlan.ts';
import type { PlanFile } from '../../engine/records/readPlanFile.ts';
import { clockText } from '../../store/clock.ts';
import { useHistoryState, useStore } from '../session/useStore.ts';
import { DryRun } from './DryRun.tsx';
import { ImportChoices, shelfNameField } from './ImportChoices.tsx';
import type { Choices } from './ImportChoices.tsx';
import { differingOf, writesText, writtenText } from './importWords.ts';

export interface ImportPageProps {
  fileName: string;
  content: PlanFile;
  kept: KeptWork;
  onOpenTask: (id: string) => void;
  onClose: () => void;
}

interface Written {
  /** Of its entry in the journal. */
  seq: number;
  /** "Added 65 items and 24 steps". */
  what: string;
  title: string;
  task: string | null;
  at: Date;
}

function nameOfFile(fileName: string): string {
  return fileName.replace(/\.json$/i, '').slice(0, 200) || 'plan';
}

/** The dry run with its choices, then what was written. */
export function ImportPage({ fileName, content, kept, onOpenTask, onClose }: ImportPageProps) {
  const store = useStore();
  const { plan } = content;
  const named = nameOfFile(fileName);
  const hasTask = holdsTask(plan);
  const [written, setWritten] = useState<Written | null>(null);
  const [writing, setWriting] = useState(false);
  const [refused, setRefused] = useState<string | null>(null);
  const [asked, setAsked] = useState(0);
  const [choices, setChoices] = useState<Choices>(() => {
    const name = plan.task === undefined || plan.task.name.trim() === '' ? named : plan.task.name.slice(0, 200);
    const taken = kept.shelves.map((one) => one.name);
    return { task: null, shelf: null, shelfName: freeName(name, taken), differing: 'keep' };
  });
  const code = plan.task?.id ?? named;
  const sameTask = hasTask ? (kept.tasks.find((one) => one.code === code) ?? null) : null;
  const { task, shelf, differing } = choices;
  // The name is put in when it is written: typing it compares nothing anew.
  const merge = useMemo(
    () =>
      mergeOfPlan(kept, plan, {
        task,
        shelf,
        differing,
        shelfName: named,
        taskNamed: named,
        newId: () => store.newId(),
      }),
    [kept, plan, task, shelf, differing, named, store],
  );
  const nameError =
    asked > 0 && choices.shelf === null && choices.shelfName.trim() === '' ? 'Name of the shelf is blank' : null;
  const what = writesText(merge);

  if (written !== null) return <Done written={written} onOpenTask={onOpenTask} onClose={onClose} />;

  const write = async (): Promise<void> => {
    setAsked(asked + 1);
    if (choices.shelf === null && choices.shelfName.trim() === '') return;
    if (what === null || writing) return;
    setWriting(true);
    setRefused(null);
    const title = `Bring in ${fileName}`.slice(0, 2000);
    try {
      const { seq } = await store.commit({
        action: 'bring-in',
        title,
        proposals: withShelfName(merge.puts, choices.shelfName.trim()),
      });
      setWritten({ seq, what: writtenText(what), title, task: merge.result?.id ?? null, at: new Date() });
    } catch (error) {
      // The tables have brought what was changed meanwhile, and the comparison above is made with it.
      setRefused(
        conflictsIn(error) === null
          ? reasonOf(error)
          : 'What is kept was changed meanwhile; the comparison is made anew.',
      );
    }
    setWriting(false);
  };

  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void write();
      }}
    >
      {nameError === null ? null : (
        <FieldErrors asked={asked} errors={[{ field: shelfNameField, message: nameError }]} />
      )}
      <p>
        {plan.task === undefined ? (
          hasTask ? (
            'The file names no task.'
          ) : (
            'The file holds a catalog and no task.'
          )
        ) : (
          <b>{plan.task.name}</b>
        )}{' '}
        Nothing is written yet.
      </p>
      {plan.task?.about === undefined ? null : <p className="bw-second">{plan.task.about}</p>}
      <ImportChoices
        choices={choices}
        onChange={setChoices}
        sameTask={sameTask}
        newCode={
          sameTask === null
            ? null
            : freeCode(
                code,
                kept.tasks.map((one) => one.code),
              )
        }
        shelves={kept.shelves}
        differing={differingOf(merge).length}
        nameError={nameError}
      />
      <DryRun
        merge={merge}
        differing={choices.differing}
        ignored={[...content.ignored]}
        unfinished={content.unfinished}
      />
      {refused === null ? null : (
        <div className="bw-form-notsaved" role="alert">
          <StateMark state="not-saved" />
          <p>{refused} Nothing of the file was written; the button tries again.</p>
        </div>
      )}
      <div className="bw-form-foot">
        {what === null ? (
          <p>Everything in the file is here already: there is nothing to write.</p>
        ) : (
          <Button type="submit" variant="filled" disabled={writing}>
            {writing ? 'Writing…' : what}
          </Button>
        )}
        <Button onClick={onClose}>Leave the file</Button>
      </div>
    </form>
  );
}

/** An import makes one shelf at most. */
function withShelfName(puts: readonly PlanPut[], name: string): PlanPut[] {
  return puts.map((one) => (one.table === 'shelves' ? { ...one, put: { ...one.put, name } } : one));
}

/** After the fact: what was written, and the way back. */
function Done({
  written,
  onOpenTask,
  onClose,
}: { written: Written } & Pick<ImportPageProps, 'onOpenTask' | 'onClose'>) {
  const store = useStore();
  const heading = useRef<HTMLHeadingElement>(null);
  // Undo takes back the newest change; once there is a newer one than this, it is no longer this one's.
  const isNewest = useHistoryState().undo?.seq === written.seq;
  const [undoing, setUndoing] = useState<'not' | 'now' | 'done' | string>('not');
  useEffect(() => heading.current?.focus(), []);
  const undo = async (): Promise<void> => {
    setUndoing('now');
    try {
      await store.undo();
      setUndoing('done');
    } catch (error) {
      setUndoing(error instanceof Error ? error.message : String(error));
    }
  };
  if (undoing === 'done')
    return (
      <>
        <p role="status">
          <b>{written.title}</b> is undone: everything is as it was before.
        </p>
        <Button onClick={onClose}>Close</Button>
      </>
    );
  return (
    <>
      <h3 ref={heading} tabIndex={-1} className="bw-heading">
        {written.what}
      </h3>
      <p>
        <StateMark state="saved" text={`Saved ${clockText(written.at)}`} />: it stands on the disk twice, in the journal
        and in the working copy. Undo takes all of it back in one go.
      </p>
      {undoing === 'not' || undoing === 'now' ? null : (
        <p role="alert" className="bw-import-bad">
          It was not undone: {undoing}
        </p>
      )}
      <div className="bw-form-foot">
        {written.task === null ? (
          <Button variant="filled" onClick={onClose}>
            Close
          </Button>
        ) : (
          <Button
            variant="filled"
            onClick={() => {
              onClose();
              if (written.task !== null) onOpenTask(written.task);
            }}
          >
            Open the task
          </Button>
        )}
        {isNewest || undoing !== 'not' ? (
          <Button disabled={undoing === 'now'} onClick={() => void undo()}>
            Undo “{written.title}”
          </Button>
        ) : (
          <p>Other changes came after it: Undo takes those back first.</p>
        )}
      </div>
    </>
  );
}
