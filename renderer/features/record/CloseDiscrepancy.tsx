import { useState } from 'react';
import { Button, NativeSelect, Textarea, TextInput } from '@mantine/core';
import type { Discrepancy, Doer, Revision } from '../../../shared-types/records/revision.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { reasonOf } from '../../components/RecordForm/refusedSave.ts';
import { amountText, placeName, shop } from '../../engine/return/index.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { appendEvents } from '../revisions/appendEvents.ts';
import { useEvents } from '../revisions/useRevisions.ts';
import { useStore } from '../session/useStore.ts';
import { closedBy, closingDeed } from './closeAct.ts';
import type { How } from './closeAct.ts';
import { howWords } from './recordTables.ts';
import { frozenRead } from './useFrozenRead.ts';

export interface CloseDiscrepancyProps {
  one: Discrepancy;
  by: Doer;
  partsOfOne: number;
  /** Null where it is gone: then it is closed without an event. */
  revision: Revision | null;
  now: () => Date;
  onClose: () => void;
}

/** Closes a discrepancy for good: how, in words, by the person named. */
export function CloseDiscrepancy({ one, by, partsOfOne, revision, now, onClose }: CloseDiscrepancyProps) {
  const store = useStore();
  const events = useEvents(one.revision);
  const [how, setHow] = useState<How>('found');
  const [place, setPlace] = useState<string>(shop);
  const [named, setNamed] = useState('');
  const [words, setWords] = useState('');
  const [asked, setAsked] = useState(false);
  const [said, setSaid] = useState<string | null>(null);
  const read = revision === null ? null : frozenRead(revision);
  const plan = read?.kind === 'read' ? read.frozen.plan : null;
  const consumed = revision?.content.things.find(({ id }) => id === one.item)?.consumed === true;
  const hows = (Object.keys(howWords) as How[]).filter((each) => each !== 'spent' || consumed);
  const needsPlace = how === 'found' || how === 'left-there';
  const other = 'other';
  const places = [
    ...(how === 'found' ? [{ value: shop, label: 'the shop' }] : []),
    ...(plan?.source.places ?? []).map(({ id }) => ({ value: id, label: placeName(id, plan) })),
    { value: other, label: 'another place…' },
  ];
  const chosen = places.some(({ value }) => value === place) ? place : (places[0]?.value ?? other);
  const where = chosen === other ? named.trim() : chosen;
  const close = async (): Promise<void> => {
    setAsked(true);
    if (words.trim() === '' || (needsPlace && where === '')) return;
    const at = isoWithOffset(now());
    const put = closedBy(one, { at, by, how, words: words.trim() });
    const title = `Close D-${one.number}`;
    const deed = revision === null ? null : closingDeed(one, { how, place: where, revision, events: events.rows });
    try {
      if (deed === null || revision === null)
        await store.commit({
          ...{ action: 'close-discrepancy', title, undoable: false },
          proposals: [{ table: 'discrepancies', put }],
        });
      else
        await appendEvents(store, revision, {
          title,
          done: [{ at, by, outing: one.outing, deed }],
          beside: () => [{ table: 'discrepancies', put }],
        });
      onClose();
    } catch (error) {
      setSaid(`It is open as before: ${reasonOf(error)}`);
    }
  };
  return (
    <Dialog title={`Close D-${one.number}`} onClose={onClose} className="bw-record-in">
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          void close();
        }}
      >
        <p>
          <bdi>{one.name}</bdi> <span className="bw-code">{one.item}</span>: {amountText(one, partsOfOne)}, seen last{' '}
          <bdi>{one.lastSeen.place}</bdi>. It is closed by <bdi>{by.name}</bdi>, <bdi>{by.role}</bdi>, and never opened
          again.
        </p>
        <NativeSelect
          className="bw-field"
          label="How it is closed"
          value={how}
          data={hows.map((value) => ({ value, label: howWords[value] }))}
          onChange={({ currentTarget }) => setHow(hows.find((each) => each === currentTarget.value) ?? 'found')}
        />
        {needsPlace ? (
          <NativeSelect
            className="bw-field"
            label="Where it is now"
            description="it is counted there by an event of its own, where it was not counted before"
            value={chosen}
            data={places}
            onChange={({ currentTarget }) => setPlace(currentTarget.value)}
          />
        ) : null}
        {needsPlace && chosen === other ? (
          <TextInput
            className="bw-field"
            label="Which place"
            maxLength={200}
            autoComplete="off"
            value={named}
            error={asked && where === '' ? 'Which place is missing.' : undefined}
            onChange={({ currentTarget }) => setNamed(currentTarget.value)}
          />
        ) : null}
        <Textarea
          className="bw-field"
          label="In words"
          description="where it was found, or why it is given up"
          autosize
          minRows={2}
          maxRows={8}
          maxLength={2000}
          value={words}
          error={asked && words.trim() === '' ? 'Words are missing.' : undefined}
          onChange={({ currentTarget }) => setWords(currentTarget.value)}
        />
        {said === null ? null : <p role="alert">{said}</p>}
        <div className="bw-form-foot">
          <Button type="submit" variant="filled">
            Close D-{one.number}
          </Button>
          <Button onClick={onClose}>Leave it open</Button>
        </div>
      </form>
    </Dialog>
  );
}
