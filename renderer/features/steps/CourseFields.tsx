import { useState } from 'react';
import type { Task, TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import { atTheSite, inTheBag } from '../../engine/plan/resolveCourse.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { NumberField } from '../../components/Fields/NumberField.tsx';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { RowsField } from '../../components/RowsField/RowsField.tsx';
import { SeekField } from '../../components/SeekField/SeekField.tsx';
import { withPresent } from '../task/choices.ts';
import type { TaskRows } from './stepActs.ts';
import type { StepOffers } from './stepOffers.ts';
import { actionWords, stepName } from './stepTexts.ts';

type FastenerMove = NonNullable<TaskStep['fastenerMoves']>[number];

export interface CourseFieldsProps {
  form: RecordFormState;
  step: TaskStep;
  rows: TaskRows;
  offers: StepOffers;
  places: Task['places'];
}

const standing = [
  { value: 'no', label: 'The work goes on' },
  { value: 'yes', label: 'The work may be left as it is' },
] as const;
const orders = [
  { value: 'listed', label: 'Where it is listed' },
  { value: 'open', label: 'Anywhere after the steps named here' },
] as const;
const fields = ['spread', 'fastenerMoves', 'safeToLeave', 'after'] as const;

/** How the step runs: its minutes, what comes off and where it is laid, whether it may be left, what it comes after. */
export function CourseFields({ form, step, rows, offers, places }: CourseFieldsProps) {
  const { draft } = form;
  const [open, setOpen] = useState(() => fields.some((field) => draft[field] !== undefined));
  const refused = form.errors.some(({ field }) => fields.some((name) => field.includes(`-${name}`)));
  const moves: readonly Partial<FastenerMove>[] = Array.isArray(draft['fastenerMoves'])
    ? (draft['fastenerMoves'] as FastenerMove[])
    : [];
  const setMoves = (next: readonly object[]): void => form.set('fastenerMoves', next.length === 0 ? undefined : next);
  const changeMove = (index: number, field: keyof FastenerMove, value: unknown): void =>
    setMoves(
      moves.map((row, at) => {
        if (at !== index) return row;
        const { [field]: _was, ...rest } = row;
        return value === undefined ? rest : { ...rest, [field]: value };
      }),
    );
  const after: readonly string[] | null = Array.isArray(draft['after']) ? (draft['after'] as string[]) : null;
  const setAfter = (next: readonly string[]): void => form.set('after', next);
  const others = rows.steps.filter(({ id, outing }) => id !== step.id && outing === step.outing);
  const roles = rows.outings.find((outing: TaskOuting) => outing.code === step.outing)?.roles ?? [];
  const ends = [
    { value: atTheSite, label: 'its hole' },
    { value: inTheBag, label: 'the bag, in a pouch' },
    ...places.map(({ id, name }) => ({ value: id, label: name ?? id })),
    ...roles.map((role) => ({ value: role, label: `the hands of ${role}` })),
  ];
  const sources = [
    ...ends,
    ...offers.supplies.map(({ code, words }) => ({ value: code, label: `out of ${words || code}` })),
  ];
  const safe = form.yesNo('safeToLeave', 'When it is done');
  return (
    <details
      className="bw-form-group"
      open={open || refused}
      onToggle={({ currentTarget }) => setOpen(currentTarget.open)}
    >
      <summary>How it runs: minutes it may take, what comes off, its order</summary>
      <div className="bw-form-grid">
        <NumberField
          {...form.number('spread.least', 'Least (min)')}
          description="All three, or none: for the chance of finishing in time"
          optional
        />
        <NumberField {...form.number('spread.likely', 'Most likely (min)')} optional />
        <NumberField {...form.number('spread.most', 'Most (min)')} optional />
        <ChoiceField
          {...safe}
          value={safe.value === true ? 'yes' : 'no'}
          choices={standing}
          onChange={(value) => form.set('safeToLeave', value === 'yes' ? true : undefined)}
        />
        <ChoiceField
          {...form.choice<'listed' | 'open'>('after', 'Its place in the order')}
          value={after === null ? 'listed' : 'open'}
          description="An open place lets other orders be proposed"
          choices={orders}
          onChange={(value) => form.set('after', value === 'open' ? (after ?? []) : undefined)}
        />
      </div>
      {after === null ? null : (
        <RowsField
          what="Step before"
          rows={after}
          addLabel="Add a step that comes before"
          onAdd={() => setAfter([...after, ''])}
          onRemove={(index) => setAfter(after.filter((_, at) => at !== index))}
        >
          {(code, index) => (
            <SeekField
              {...form.text(`after.${index}`, `Comes after, ${index + 1}`)}
              value={code}
              offers={others.map((other) => ({
                code: other.code,
                words: `${stepName(other)}, ${actionWords[other.action].toLowerCase()}`,
              }))}
              unknown="No step of this outing has this code"
              onChange={(text) => setAfter(after.map((one, at) => (at === index ? text : one)))}
            />
          )}
        </RowsField>
      )}
      <h3 className="bw-form-sub">What comes off or goes on</h3>
      <RowsField
        what="Fastener"
        rows={moves}
        addLabel="Add fasteners taken out or put in"
        onAdd={() => setMoves([...moves, { id: step.fastener ?? '', quantity: step.count ?? 1, from: atTheSite }])}
        onRemove={(index) => setMoves(moves.filter((_, at) => at !== index))}
      >
        {(row, index) => {
          const name = `Fastener ${index + 1}`;
          const at = `fastenerMoves.${index}`;
          return (
            <>
              <SeekField
                {...form.text(`${at}.id`, name)}
                value={row.id ?? ''}
                offers={offers.fasteners}
                unknown="No fastener of this task’s shelves has this code"
                onChange={(text) => changeMove(index, 'id', text)}
              />
              <NumberField
                {...form.number(`${at}.quantity`, `${name}, quantity`)}
                value={row.quantity}
                whole
                onChange={(value) => changeMove(index, 'quantity', value ?? '')}
              />
              <NumberField
                {...form.number(`${at}.washers`, `${name}, washers`)}
                value={row.washers}
                description="Not said: each its own loose ones"
                whole
                optional
                onChange={(value) => changeMove(index, 'washers', value)}
              />
              <ChoiceField
                {...form.choice(`${at}.from`, `${name}, from`)}
                value={row.from === '' ? undefined : row.from}
                choices={withPresent(sources, row.from === '' ? undefined : row.from, 'no place of this task')}
                onChange={(value) => changeMove(index, 'from', value ?? '')}
              />
              <ChoiceField
                {...form.choice(`${at}.to`, `${name}, laid`)}
                value={row.to}
                choices={withPresent(ends, row.to, 'no place of this task')}
                optional
                onChange={(value) => changeMove(index, 'to', value)}
              />
            </>
          );
        }}
      </RowsField>
    </details>
  );
}
