import { useMemo, useRef } from 'react';
import { Button } from '@mantine/core';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { Task, TaskStep } from '../../../shared-types/records/task.ts';
import { LinesField } from '../../components/Fields/LinesField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import type { Draft } from '../../components/RecordForm/draft.ts';
import { RecordForm } from '../../components/RecordForm/RecordForm.tsx';
import { useRecordForm } from '../../components/RecordForm/useRecordForm.ts';
import { overKept } from '../../store/overKept.ts';
import { useStore } from '../session/useStore.ts';
import { AccessFields } from '../task/AccessFields.tsx';
import { firstCode, freshCode } from '../task/freshCode.ts';
import type { SiteRows } from '../task/useTaskRows.ts';
import { accessText, filledFrom } from './fromInterface.ts';
import type { Filled } from './fromInterface.ts';
import { CautionFields } from './CautionFields.tsx';
import { CourseFields } from './CourseFields.tsx';
import { GearFields, MoveFields } from './GearFields.tsx';
import { HoldFields } from './HoldFields.tsx';
import { offersOf } from './stepOffers.ts';
import { addStep, editStep } from './stepActs.ts';
import type { TaskRows } from './stepActs.ts';
import { stepChecks, stepOf } from './stepChecks.ts';
import { stepCalled } from './stepTexts.ts';
import { TorqueFields } from './TorqueFields.tsx';
import { WhatFields } from './WhatFields.tsx';
import { WhoFields } from './WhoFields.tsx';

export interface StepFormProps {
  task: Task;
  rows: TaskRows;
  stock: readonly Item[];
  sites: SiteRows;
  /** The step as it is kept; null for a new one. */
  before: TaskStep | null;
  number: number | null;
  /** A new step takes outing, role and slot over from this one. */
  like: TaskStep | null;
  /** A new step stands after the one with this key. */
  after: string | null;
  /** Counted up where something else shall take the form's place. */
  leaveAsked: number;
  onStay: () => void;
  onSaved: (step: TaskStep, next: boolean) => void;
  onLeave: () => void;
}

/** Where it goes out and by whom as the step before it; else the first outing and its first role. */
function newStep(id: string, { task, rows, like }: Pick<StepFormProps, 'task' | 'rows' | 'like'>): Draft {
  const taken = new Set(rows.steps.map(({ code }) => code));
  const [first] = rows.outings;
  const code = like === null ? firstCode('s', taken) : freshCode(like.code, taken);
  const where = like ?? { outing: first?.code ?? '', role: first?.roles[0] ?? '', slot: undefined };
  return {
    id,
    rev: 0,
    task: task.id,
    position: 0,
    code,
    ...(where.outing === '' ? {} : { outing: where.outing }),
    ...(where.role === '' ? {} : { role: where.role }),
    ...(where.slot === undefined ? {} : { slot: where.slot }),
    action: 'tighten',
  };
}

/** Where the access of a step comes from. */
function accessWords(step: TaskStep, at: Interface | undefined, { given, access }: Filled): string {
  if (given.has('access') && access !== undefined)
    return `From interface ${at?.code}: ${accessText(access)}. What is typed here stands in its place, whole.`;
  if (step.access === undefined) return 'Nothing typed: the head stands free.';
  return at?.access === undefined ? 'The step’s own.' : `In place of interface ${at.code}’s: ${accessText(at.access)}.`;
}

/** One step, whole. What it acts on may come from its interface; what is missing is said by the list, not refused. */
export function StepForm(props: StepFormProps) {
  const { task, rows, stock, sites, before, number, like, after, leaveAsked, onStay, onSaved, onLeave } = props;
  const store = useStore();
  const initial = useMemo(
    () => (before === null ? newStep(store.newId(), { task, rows, like }) : ({ ...before } as Draft)),
    // The form begins once; what changes meanwhile is found out by saving.
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [],
  );
  const form = useRecordForm({
    initial,
    faultsOf: (draft) => stepChecks(draft, rows),
    keepAs: before === null ? `step-of-${task.id}` : `step-${before.id}`,
  });
  const { draft } = form;
  const saved = useRef<TaskStep | null>(null);
  const wantsNext = useRef(false);
  const heading = before === null ? 'Add a step' : `Edit ${stepCalled(before, number)}`;
  const step = stepOf(draft);
  const at = sites.interfaces.get(step.interface ?? '');
  const filled = filledFrom(step, at);
  const offers = useMemo(() => offersOf(stock), [stock]);
  const accessNote = accessWords(step, at, filled);
  const fastener = stock.find((item) => item.kind === 'fastener' && item.code === filled.fastener);

  return (
    <div
      role="presentation"
      onClickCapture={({ target }) => {
        wantsNext.current = target instanceof Element && target.closest('[data-next]') !== null;
      }}
      onKeyDownCapture={({ key }) => {
        if (key === 'Enter') wantsNext.current = false;
      }}
    >
      <RecordForm
        form={form}
        heading={heading}
        saveLabel={before === null ? 'Add step' : 'Save step'}
        also={
          <Button type="submit" data-next="">
            {before === null ? 'Add, and the next' : 'Save, and add the next'}
          </Button>
        }
        save={async (over) => {
          const made = stepOf(draft);
          const act = before === null ? addStep(rows, made, after) : editStep(rows, before, made, number);
          saved.current = made;
          await store.commit(overKept(act, over));
        }}
        onSaved={() => {
          if (saved.current !== null) onSaved(saved.current, wantsNext.current);
        }}
        onLeave={onLeave}
        leaveAsked={leaveAsked}
        onStay={onStay}
      >
        <WhatFields form={form} step={step} at={at} filled={filled} task={task} sites={sites} offers={offers} />
        <WhoFields form={form} step={step} rows={rows} />
        <TorqueFields form={form} step={step} thread={fastener?.kind === 'fastener' ? fastener.thread : undefined} />
        <fieldset className="bw-form-group">
          <legend>Access to the head</legend>
          <AccessFields form={form} at="access" note={accessNote} />
        </fieldset>
        <HoldFields form={form} step={step} offers={offers} />
        <GearFields form={form} step={step} at={at} offers={offers} />
        <MoveFields form={form} step={step} offers={offers} places={task.places} />
        <CourseFields form={form} step={step} rows={rows} offers={offers} places={task.places} />
        <CautionFields form={form} />
        <fieldset className="bw-form-group">
          <legend>Said with it</legend>
          <div className="bw-form-grid">
            <LinesField
              {...form.lines('watchOuts', 'Watch-outs')}
              description="Said before the step, on screen and on paper"
              optional
            />
            <TextField {...form.text('notes', 'Notes')} long optional />
            <TextField
              {...form.text('code', 'Code')}
              description="What other records and files call it; nobody else in this task has it"
            />
          </div>
        </fieldset>
      </RecordForm>
    </div>
  );
}
