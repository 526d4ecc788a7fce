import { useState } from 'react';
import { Button } from '@mantine/core';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import { reasonOf } from '../../../components/RecordForm/refusedSave.ts';
import { StateMark } from '../../../components/StateMark/StateMark.tsx';
import { massText } from '../../manifest/massText.ts';
import { useSaveState, useStore, useTable } from '../../session/useStore.ts';
import { whyNotNow } from '../../revisions/freezeAct.ts';
import { countOf } from '../../steps/words.ts';
import type { PackScreen } from '../packScreen.ts';
import { lineChanges, stepChanges } from './changes.ts';
import { takeWithout } from './takeWithout.ts';
import { usePlanWithout } from './usePlanWithout.ts';
import type { Replanned } from './usePlanWithout.ts';

/** What the outing is without the things that are missing; taking it makes the next revision, with what is packed carried over. */
export function PlanWithoutDialog({ onClose, ...screen }: PackScreen & { onClose: () => void }) {
  const { frozen, state, gloved } = screen;
  const replanned = usePlanWithout({ frozen, packing: state.packing });
  return (
    <Dialog
      title="Plan without what is missing"
      onClose={onClose}
      className={`bw-pack-dialog bw-pack-wide${gloved ? ' bw-pack-gloved' : ''}`}
    >
      <div className="bw-accept">
        <p className="bw-second">
          The planner alone substitutes. It is asked for this outing again, with as much of the missing things as was
          counted in.
        </p>
        <Answered {...screen} replanned={replanned} onClose={onClose} />
      </div>
    </Dialog>
  );
}

function Answered({ replanned, onClose, ...screen }: PackScreen & { replanned: Replanned; onClose: () => void }) {
  if (replanned.kind === 'planning')
    return (
      <p role="status">
        Planning the outing again
        {replanned.keepPacked ? ', with all that is packed kept' : ', with what is packed free to be taken out'}…
      </p>
    );
  if (replanned.kind === 'refused')
    return (
      <p role="alert">
        <b>It could not be planned.</b> {replanned.reason}.
      </p>
    );
  if (replanned.kind === 'none')
    return (
      <div role="alert">
        <p>
          <StateMark state="infeasible" text="No bag without it" /> The outing cannot be done with what is there.
        </p>
        <ul className="bw-pack-short">
          {replanned.answer.infeasible.map(({ step, outing, reason, closest }) => (
            <li key={`${step} ${outing} ${reason}`}>
              {step === undefined ? null : <b>Step {step}: </b>}
              {reason}
              {closest.slice(0, 2).map(({ stack, fails }) => (
                <p key={stack.join('+')} className="bw-second">
                  Closest: <span className="bw-code">{stack.join(' + ')}</span>:{' '}
                  {fails.map(({ check, have, need }) => `${check}: has ${have}, needs ${need}`).join('; ')}
                </p>
              ))}
            </li>
          ))}
        </ul>
      </div>
    );
  return <Offer {...screen} replanned={replanned} onClose={onClose} />;
}

type Planned = Extract<Replanned, { kind: 'planned' }>;

function Offer({ replanned, onClose, ...screen }: PackScreen & { replanned: Planned; onClose: () => void }) {
  const { revision, revisions, frozen, outing, atHand, now, state, doer, withDoer } = screen;
  const store = useStore();
  const saving = useSaveState();
  const items = useTable('items');
  const [refused, setRefused] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const { next, task, answer, keepPacked } = replanned;
  const [before, after] = [frozen.result, next.result].map(({ outings }) => outings.find(({ id }) => id === outing));
  if (before === undefined || after === undefined) return null;
  const lines = lineChanges(before, after);
  const steps = stepChanges(before, after);
  const missing = [...task.there.keys()].join(', ');
  const number = Math.max(...revisions.map((one) => one.number)) + 1;
  const take = async (): Promise<void> => {
    const notNow = state.unsaved > 0 ? 'What was counted last is still being saved.' : whyNotNow(saving);
    if (notNow !== null) {
      setRefused(notNow);
      return;
    }
    setBusy(true);
    try {
      await takeWithout(store, {
        ...{ revision, number, next, frozen, atHand, packing: state.packing, doer, now },
        items: [...items.rows.values()],
        why: `Planned without ${missing}: not there to be packed on outing ${outing}`,
      });
      onClose();
    } catch (error) {
      setRefused(reasonOf(error));
      setBusy(false);
    }
  };
  return (
    <>
      <p>
        <StateMark state={answer.status === 'optimal' ? 'proved-least' : 'not-proved'} />{' '}
        <b>The bag still does every step of this outing without {missing}.</b>{' '}
        {keepPacked ? 'All that is packed stays.' : 'Not with all that is packed: some of it comes out.'}
      </p>
      <p>
        What it costs: {massText(before.massKg)} becomes {massText(after.massKg)}, bags included.
      </p>
      <h3>What changes</h3>
      {lines.length === 0 ? <p>No line.</p> : null}
      <ul className="bw-pack-short">
        {lines.map(({ bag, item, before: was, after: is }) => (
          <li key={`${bag} ${item}`}>
            <span className="bw-code">{item}</span> in {bag}:{' '}
            {was === 0 ? `comes in, ${is}` : is === 0 ? `goes out, ${was}` : `${is} instead of ${was}`}
          </li>
        ))}
        {steps.map(({ step, before: was, after: is }) => (
          <li key={step}>
            Step {step}: <span className="bw-code">{is}</span> instead of <span className="bw-code">{was}</span>
          </li>
        ))}
        {task.dropped.map((said) => (
          <li key={said}>Not asked for any more: {said}</li>
        ))}
      </ul>
      {next.alsoShort.map((short) => (
        <p key={`${short.outing} ${short.item}`}>
          <b>
            Outing {short.outing} counts on {short.takes} of {short.item} too
          </b>
          ; {short.there} {short.there === 1 ? 'is' : 'are'} there. It stays as it was frozen, and the whole is not
          called proven.
        </p>
      ))}
      {refused === null ? null : (
        <div className="bw-form-notsaved" role="alert">
          <StateMark state="not-saved" text="Not frozen" />
          <p>{refused}</p>
        </div>
      )}
      <div className="bw-form-foot">
        <Button
          className="bw-pack-big"
          variant="filled"
          aria-disabled={busy}
          data-disabled={busy}
          onClick={() => withDoer(() => void (busy ? undefined : take()))}
        >
          Freeze as revision {number} and go on packing
        </Button>
        <Button className="bw-pack-big" onClick={onClose}>
          Leave it as it is
        </Button>
      </div>
      <p className="bw-second">
        {countOf(state.packing.totals.packed, 'piece')} counted so far are carried over as far as the next revision has
        them. Bags are closed and counted again anew.
      </p>
    </>
  );
}
