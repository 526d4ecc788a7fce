import { useId, useMemo, useState } from 'react';
import { SeekField } from '../../components/SeekField/SeekField.tsx';
import type { Offer } from '../../components/SeekField/offersFor.ts';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { RefusedError } from '../../engine/errors.ts';
import { bandOfCells, cellNamed } from '../../engine/inspection/index.ts';
import { threadIn } from '../handbook/rowThread.ts';
import { useTable } from '../session/useStore.ts';
import { bandsToTake, calloutToTake, withTorque } from './takenTorque.ts';
import type { TorqueToTake } from './takenTorque.ts';
import { bandSaid } from './TorqueChange.tsx';

export interface TakeTorqueProps {
  form: RecordFormState;
  step: TaskStep;
  /** Thread of the step's fastener, where it is known. */
  thread: string | undefined;
}

interface Offered extends Offer {
  /** Read when it is chosen: a list may have thousands. Throws what of it cannot be read. */
  torque: () => TorqueToTake;
}

/** Two callouts of one name are told apart by a number, as two rows of one table are. */
function numbered(offers: readonly Offered[]): Offered[] {
  const seen = new Map<string, number>();
  return offers.map((offer) => {
    const count = (seen.get(offer.code) ?? 0) + 1;
    seen.set(offer.code, count);
    return count === 1 ? offer : { ...offer, code: `${offer.code} (${count})` };
  });
}

/** The callouts of the task, those of the step’s thread first, and every published band of that thread. */
function useOffered(task: string, thread: string | undefined): readonly Offered[] {
  const lists = useTable('calloutLists').rows;
  const callouts = useTable('callouts').rows;
  return useMemo(() => {
    const of = thread === undefined ? null : threadIn(thread);
    const designations = new Map<string, string | undefined>();
    const isOwn = (text: string): boolean => {
      if (!designations.has(text)) designations.set(text, threadIn(text)?.designation);
      return of !== null && designations.get(text) === of.designation;
    };
    const own: Offered[] = [];
    const others: Offered[] = [];
    for (const row of callouts.values()) {
      const list = lists.get(row.list);
      if (list?.task !== task) continue;
      const size = cellNamed(row.cells, 'thread');
      const words = [`${size}: ${bandText(row.cells)}`, cellNamed(row.cells, 'lubrication'), `“${list.name}”`];
      (isOwn(size) ? own : others).push({
        code: `callout ${cellNamed(row.cells, 'id') || 'without id'}`,
        words: words.filter((text) => text !== '').join(', '),
        torque: () => calloutToTake(row, list.name),
      });
    }
    const bands = (of === null ? [] : bandsToTake(of)).map((torque): Offered => {
      const { callout, calloutFrom } = torque.fields;
      const words = `${bandSaid(callout, 'as-written')}, ${calloutFrom.condition ?? ''}`;
      return { code: torque.name, words, torque: () => torque };
    });
    return numbered([...own, ...bands, ...others]);
  }, [lists, callouts, task, thread]);
}

/** The band as typed. */
function bandText(cells: Readonly<Record<string, string>>): string {
  const band = bandOfCells(cells);
  return 'text' in band ? band.text : `${band.min} to ${band.max}`;
}

/** The torque that was chosen, or why it cannot be read. */
function read({ code, torque }: Offered): TorqueToTake | string {
  try {
    return torque();
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return `Nothing is taken: of ${code}, ${error.refusal.message}`;
  }
}

/** Fills the torque of a step from a callout or a row of the handbook: found by typing, written into the fields, which stay to be changed. */
export function TakeTorque({ form, step, thread }: TakeTorqueProps) {
  const id = useId();
  const offers = useOffered(step.task, thread);
  const [typed, setTyped] = useState('');
  const [said, setSaid] = useState('');
  const type = (text: string): void => {
    setTyped(text);
    const found = offers.find(({ code }) => code === text);
    if (found === undefined) return;
    const torque = read(found);
    setTyped('');
    if (typeof torque === 'string') {
      setSaid(torque);
      return;
    }
    form.replace({ ...withTorque(form.draft as unknown as TaskStep, torque) });
    const other = threadIn(thread ?? '')?.designation;
    setSaid(
      [
        `Taken from ${torque.name}: ${bandSaid(torque.fields.callout, 'as-written')}, before ${bandSaid(step.callout, 'as-written')}.`,
        ...(other === undefined || other === torque.thread
          ? []
          : [`It is for ${torque.thread}; the step’s fastener has ${other}.`]),
      ].join(' '),
    );
  };
  const forget = (): void => {
    form.set('calloutFrom', undefined);
    // The button goes with what it forgot; the hand stays in the form.
    document.getElementById(id)?.focus();
  };
  return (
    <div className="bw-form-wide">
      <SeekField
        id={id}
        label="Take it from a callout or the handbook"
        description={
          thread === undefined
            ? 'Callouts of the task by id; rows of the handbook once the fastener is named'
            : `Callouts of the task, and every published band of ${thread}: by id, document or condition`
        }
        optional
        value={typed}
        error={undefined}
        offers={offers}
        onChange={type}
        unknown="Nothing is taken yet: choose one of those found"
      />
      <p role="status" className="bw-second bw-small">
        {said}
      </p>
      {step.calloutFrom === undefined ? null : (
        <p className="bw-small">
          Kept with the step: taken from{' '}
          {step.calloutFrom.kind === 'callout'
            ? `callout ${step.calloutFrom.id}`
            : `the handbook, ${step.calloutFrom.row}`}
          .{' '}
          <button type="button" className="bw-link" onClick={forget}>
            Forget where it is from
          </button>
        </p>
      )}
    </div>
  );
}
