import { useMemo, useState } from 'react';
import { Button } from '@mantine/core';
import type { LearnedIn, WatchOut, WatchOutTie } from '../../../shared-types/records/watchOut.ts';
import { learnedIn } from '../../../shared-types/records/watchOut.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import type { Draft } from '../../components/RecordForm/draft.ts';
import { RecordForm } from '../../components/RecordForm/RecordForm.tsx';
import { useRecordForm } from '../../components/RecordForm/useRecordForm.ts';
import { SeekField } from '../../components/SeekField/SeekField.tsx';
import { faultsOf } from '../../engine/records/faultsOf.ts';
import type { Fault } from '../../engine/records/faultsOf.ts';
import { overKept } from '../../store/overKept.ts';
import { useStore } from '../session/useStore.ts';
import { tieKey, tieNow, tieOffers } from './ties.ts';
import type { Touchable } from './ties.ts';
import { addWatchOut, editWatchOut } from './watchOutActs.ts';
import type { WatchOutBegun } from './watchOutAsking.ts';
import { learnedWords } from './watchOutRows.tsx';

export interface WatchOutFormProps {
  /** The record as it is kept, or what a new one begins with. */
  from: { before: WatchOut } | { begun: WatchOutBegun };
  known: Touchable;
  today: string;
  person: string;
  leaveAsked: number;
  onStay: () => void;
  onSaved: (record: WatchOut) => void;
  onLeave: () => void;
}

const learnedChoices = learnedIn.map((value) => ({ value, label: learnedWords[value] }));

function faultsIn(draft: Draft): readonly Fault[] {
  const faults = faultsOf('watchOuts', draft);
  return faults.map((fault) =>
    fault.path === 'ties'
      ? { path: 'ties', message: 'tie it to an interface, an item or a step: else nobody is ever told.' }
      : fault.path === 'learned.on'
        ? { path: 'learned.on', message: 'is no day of the calendar: write it as "2027-03-31".' }
        : fault,
  );
}

export function WatchOutForm({ from, known, today, person, leaveAsked, onStay, onSaved, onLeave }: WatchOutFormProps) {
  const store = useStore();
  const before = 'before' in from ? from.before : null;
  const initial = useMemo<Draft>(
    () => {
      if ('before' in from) return { ...from.before };
      const { text, ties = [], learned = {} } = from.begun;
      return {
        ...{ id: store.newId(), rev: 0, ties },
        ...(text === undefined ? {} : { text }),
        learned: { in: 'said', on: today, ...(person === '' ? {} : { person }), ...learned },
      };
    },
    // The form begins once; what changes meanwhile is found out by saving.
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [],
  );
  const begun = 'begun' in from ? (from.begun.ties ?? []).map(tieKey).join(' ') : '';
  const keepAs = before === null ? `new-watch-out ${begun}` : `watch-out-${before.id}`;
  const form = useRecordForm({
    initial,
    faultsOf: faultsIn,
    keepAs: keepAs.slice(0, 200),
  });
  const record = form.draft as unknown as WatchOut;
  return (
    <RecordForm
      form={form}
      heading={before === null ? 'Write a watch-out' : 'Edit the watch-out'}
      saveLabel={before === null ? 'Add watch-out' : 'Save watch-out'}
      save={(over) =>
        store.commit(overKept(before === null ? addWatchOut(record) : editWatchOut(before, record), over))
      }
      onSaved={() => onSaved(record)}
      onLeave={onLeave}
      leaveAsked={leaveAsked}
      onStay={onStay}
    >
      <fieldset className="bw-form-group">
        <legend>What to watch out for</legend>
        <TextField
          {...form.text('text', 'Watch-out')}
          long
          description="As it shall be read before the work: what happens, and what to do"
        />
      </fieldset>
      <TiesField form={form} ties={record.ties} known={known} />
      <fieldset className="bw-form-group">
        <legend>Where it was learned</legend>
        <div className="bw-form-grid">
          <ChoiceField<LearnedIn> {...form.choice<LearnedIn>('learned.in', 'Learned')} choices={learnedChoices} />
          <TextField
            {...form.text('learned.words', 'Which')}
            description="As “B-03, cycle 2” or “return of 14 May”"
            optional
          />
          <TextField {...form.text('learned.on', 'Day')} description="As 2027-03-31" />
          <TextField {...form.text('learned.person', 'By whom')} />
        </div>
      </fieldset>
    </RecordForm>
  );
}

/** What it is tied to: each can be taken off, and another one found by its name. */
function TiesField(props: { form: ReturnType<typeof useRecordForm>; ties: readonly WatchOutTie[]; known: Touchable }) {
  const { form, ties, known } = props;
  const { offers, tieOf } = useMemo(() => tieOffers(known), [known]);
  const [typed, setTyped] = useState('');
  const bound = form.text('ties', 'Touches');
  const found = tieOf(typed);
  const tie = (one: WatchOutTie): void => {
    setTyped('');
    if (!ties.some((other) => tieKey(other) === tieKey(one))) form.set('ties', [...ties, one]);
  };
  return (
    <fieldset className="bw-form-group">
      <legend>What it touches</legend>
      {ties.length === 0 ? null : (
        <ul className="bw-watchout-ties">
          {ties.map((one) => {
            const { words, about, gone } = tieNow(one, known);
            return (
              <li key={tieKey(one)}>
                <span dir="auto">
                  <b dir="auto">{words}</b>{' '}
                  <bdi className="bw-second">{gone ? 'not kept any more' : (about ?? '')}</bdi>
                </span>
                <Button
                  size="xs"
                  aria-label={`Take ${words} off`}
                  onClick={() =>
                    form.set(
                      'ties',
                      ties.filter((other) => other !== one),
                    )
                  }
                >
                  Take off
                </Button>
              </li>
            );
          })}
        </ul>
      )}
      <SeekField
        id={bound.id}
        label={ties.length === 0 ? 'Interface, item or step' : 'One more interface, item or step'}
        value={typed}
        offers={offers}
        error={bound.error}
        description="It is said before every step that touches one of them, in every task"
        unknown="Nothing kept is called so"
        onChange={(text) => {
          const one = tieOf(text);
          if (one === undefined) setTyped(text);
          else tie(one);
        }}
        optional={ties.length > 0}
      />
      {found === undefined ? null : (
        <Button size="xs" onClick={() => tie(found)}>
          Tie it to {found.called}
        </Button>
      )}
    </fieldset>
  );
}
