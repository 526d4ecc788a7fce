import { Button } from '@mantine/core';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { Task, TaskStep } from '../../../shared-types/records/task.ts';
import { inTheBag } from '../../engine/plan/resolveCourse.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { NumberField } from '../../components/Fields/NumberField.tsx';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { RowsField } from '../../components/RowsField/RowsField.tsx';
import { SeekField } from '../../components/SeekField/SeekField.tsx';
import { withPresent } from '../task/choices.ts';
import { gearOffered } from './fromInterface.ts';
import type { StepOffers } from './stepOffers.ts';

type Gear = NonNullable<TaskStep['gear']>[number];
type Move = NonNullable<TaskStep['moves']>[number];

/** A list of the draft with its deeds; a list of nothing is none. */
function listOf<Row extends object>(form: RecordFormState, path: 'gear' | 'moves', empty: Row) {
  const kept = form.draft[path];
  const rows: readonly Row[] = Array.isArray(kept) ? (kept as Row[]) : [];
  const set = (next: readonly Row[]): void => form.set(path, next.length === 0 ? undefined : next);
  return {
    rows,
    add: () => set([...rows, empty]),
    addAll: (more: readonly Row[]) => set([...rows, ...more]),
    remove: (index: number) => set(rows.filter((_, at) => at !== index)),
    change: (index: number, field: keyof Row, value: unknown) =>
      set(rows.map((row, at) => (at === index ? { ...row, [field]: value } : row))),
  };
}

const unknown = 'No gear of this task’s shelves has this code';

export interface GearFieldsProps {
  form: RecordFormState;
  step: TaskStep;
  offers: StepOffers;
}

/** What the step takes along besides its stack. */
export function GearFields({ form, step, at, offers }: GearFieldsProps & { at: Interface | undefined }) {
  const list = listOf<Gear>(form, 'gear', { id: '', quantity: 1 });
  const offered = gearOffered(step, at);
  return (
    <fieldset className="bw-form-group">
      <legend>Gear</legend>
      <RowsField what="Gear" rows={list.rows} addLabel="Add gear" onAdd={list.add} onRemove={list.remove}>
        {(row, index) => (
          <>
            <SeekField
              {...form.text(`gear.${index}.id`, `Gear ${index + 1}`)}
              value={row.id}
              offers={offers.gear}
              unknown={unknown}
              onChange={(text) => list.change(index, 'id', text)}
            />
            <NumberField
              {...form.number(`gear.${index}.quantity`, `Gear ${index + 1}, quantity`)}
              value={row.quantity}
              whole
              onChange={(value) => list.change(index, 'quantity', value ?? '')}
            />
          </>
        )}
      </RowsField>
      {at === undefined || offered.length === 0 ? null : (
        <Button size="xs" onClick={() => list.addAll(offered)}>
          Add what works {at.code}: {offered.map(({ id, quantity }) => `${quantity} × ${id}`).join(', ')}
        </Button>
      )}
    </fieldset>
  );
}

/** What changes its place in this step. */
export function MoveFields({ form, offers, places }: GearFieldsProps & { places: Task['places'] }) {
  const list = listOf<Move>(form, 'moves', { id: '', quantity: 1, from: inTheBag, to: places[0]?.id ?? '' });
  const choices = [
    { value: inTheBag, label: 'the bag' },
    ...places.map(({ id, name }) => ({ value: id, label: name ?? id })),
  ];
  const placeChoices = (present: string) =>
    withPresent(choices, present === '' ? undefined : present, 'no place of this task');
  return (
    <fieldset className="bw-form-group">
      <legend>Moves</legend>
      {places.length > 0 ? null : (
        <p className="bw-second bw-small">
          Things are moved between the bag and places. This task has no places yet: they are among its facts, on the
          front sheet.
        </p>
      )}
      <RowsField what="Move" rows={list.rows} addLabel="Add a move" onAdd={list.add} onRemove={list.remove}>
        {(row, index) => (
          <>
            <SeekField
              {...form.text(`moves.${index}.id`, `Move ${index + 1}, item`)}
              value={row.id}
              offers={offers.gear}
              unknown={unknown}
              onChange={(text) => list.change(index, 'id', text)}
            />
            <NumberField
              {...form.number(`moves.${index}.quantity`, `Move ${index + 1}, quantity`)}
              value={row.quantity}
              whole
              onChange={(value) => list.change(index, 'quantity', value ?? '')}
            />
            <ChoiceField
              {...form.choice(`moves.${index}.from`, `Move ${index + 1}, from`)}
              value={row.from}
              choices={placeChoices(row.from)}
              onChange={(value) => list.change(index, 'from', value ?? '')}
            />
            <ChoiceField
              {...form.choice(`moves.${index}.to`, `Move ${index + 1}, to`)}
              value={row.to === '' ? undefined : row.to}
              choices={placeChoices(row.to)}
              onChange={(value) => list.change(index, 'to', value ?? '')}
            />
          </>
        )}
      </RowsField>
    </fieldset>
  );
}
