import { useMemo, useState } from 'react';
import { Button } from '@mantine/core';
import type { Deed, Doer } from '../../../shared-types/records/revision.ts';
import type { Frozen } from '../../engine/frozen/index.ts';
import {
  isSome,
  lineKey,
  openLines,
  placeName,
  plannedToComeHome,
  plannedToStay,
  shop,
} from '../../engine/return/index.ts';
import type { DiscrepancyDraft, OutingThatLeft, ReturnLine } from '../../engine/return/index.ts';
import { labelledThings } from '../../engine/record/tagClashes.ts';
import { usualReader } from '../../engine/tag/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { spoken } from '../manifest/pageFurniture.ts';
import { deedText } from '../record/deedWords.ts';
import type { TaskRecord } from '../record/useTaskRecord.ts';
import { useDoer } from '../revisions/useDoer.tsx';
import { useScanner } from '../scan/useScanner.ts';
import { useSessionState } from '../session/SessionContext.ts';
import { sound } from '../pack/sounds.ts';
import { stepNumbers } from '../manifest/stepNumbers.ts';
import { writeWatchOut } from '../watchOuts/watchOutAsking.ts';
import { CloseReturn } from './CloseReturn.tsx';
import { ElsewhereList } from './ElsewhereList.tsx';
import { lastOf } from './lastOf.ts';
import { LineDialog } from './LineDialog.tsx';
import type { Choice } from './LineDialog.tsx';
import { goneDraft } from './goneDraft.ts';
import { ReturnBags } from './ReturnBags.tsx';
import { ReturnLines } from './ReturnLines.tsx';
import { ReturnHead } from './ReturnHead.tsx';
import { returnScanned } from './returnScanned.ts';
import { Stopped } from './Stopped.tsx';
import { toOpen, useReturnActs } from './useReturnActs.ts';
import type { ReturnAct } from './useReturnActs.ts';
import { ValuesDialog } from './ValuesDialog.tsx';

export interface ReturnSheetProps {
  went: OutingThatLeft;
  frozen: Frozen;
  record: TaskRecord;
  atHand: TaskAtHand;
  now: () => Date;
}

/** A line that is asked about, and the outing that took it along. */
interface AskedLine {
  went: OutingThatLeft;
  line: ReturnLine;
  begins?: Choice;
  label?: string;
}

type Over = { kind: 'line'; asked: AskedLine } | { kind: 'close'; by: Doer } | { kind: 'values' } | null;

/** Counting in: a press or a label counts one piece; everything else is said in words. The state is folded from the events at every look. */
export function ReturnSheet({ went, frozen, record, atHand, now }: ReturnSheetProps) {
  const { revision, outing, state } = went;
  const { plan } = frozen;
  const { preferences } = useSessionState();
  const { act, refused, dismiss } = useReturnActs(now);
  const { doer, withDoer, dialog } = useDoer();
  const [at, setAt] = useState<string>(shop);
  const [bag, setBag] = useState<string | null>(state.lastLine?.bag ?? null);
  const [over, setOver] = useState<Over>(null);
  const [stopped, setStopped] = useState<string | null>(null);
  const [heard, setHeard] = useState('');
  const called = { content: revision.content, plan };
  const bags = useMemo(() => [...new Set(state.lines.map((line) => line.bag))], [state.lines]);
  const firstOpen = openLines(state)[0];
  const inHand = bag ?? firstOpen?.bag ?? bags[0] ?? null;
  const numbers = useMemo(() => stepNumbers(plan), [plan]);
  const stays = useMemo(() => plannedToStay(plan, outing), [plan, outing]);
  const comesHome = useMemo(() => plannedToComeHome(plan, outing), [plan, outing]);
  const drafts = toOpen(state, record.discrepancies, revision.id, outing);
  const name = plan.outings.find(({ id }) => id === outing)?.name ?? outing;

  const loud = preferences.sounds ?? true;
  const tried = async (wish: ReturnAct): Promise<void> => {
    const isDone = await act(wish);
    if (loud) sound(isDone ? 'counted' : 'refused');
  };
  const stop = (words: string): void => {
    setStopped(words);
    if (loud) sound('refused');
  };
  const say = (x: {
    of?: OutingThatLeft;
    title: string;
    deeds: readonly Deed[];
    opens?: readonly DiscrepancyDraft[];
    words?: string;
  }): void => {
    const of = x.of ?? went;
    withDoer((by) => {
      void tried({
        ...{ revision: of.revision, outing: of.outing, by, title: x.title },
        deeds: () => x.deeds,
        ...(x.opens === undefined ? {} : { opens: () => x.opens ?? [] }),
        ...(x.words === undefined ? {} : { words: x.words }),
      });
    });
  };
  const countIn = (line: ReturnLine, label?: string): void => {
    setBag(line.bag);
    dismiss();
    const { thing, item } = line;
    if (!isSome(line.open) && label === undefined) return setOver({ kind: 'line', asked: { went, line } });
    // Parts are counted, not taken for granted.
    if (thing.parts > 1 && label === undefined) return setOver({ kind: 'line', asked: { went, line, begins: 'back' } });
    say({
      title: `Count in ${item}`,
      deeds: [
        {
          kind: 'back',
          bag: line.bag,
          item,
          pieces: 1,
          parts: thing.parts,
          place: at,
          ...(label === undefined ? {} : { label }),
        },
      ],
    });
  };
  useScanner(
    preferences.scanner ?? usualReader,
    (reading) => {
      const found = returnScanned(reading, { state, things: labelledThings(revision) });
      if ('refused' in found) return stop(found.refused);
      if ('bag' in found) return setBag(found.bag);
      setBag(found.line.bag);
      setHeard(`${found.line.item}: label read`);
      if (found.line.thing.parts > 1)
        return setOver({
          kind: 'line',
          asked: {
            went,
            line: found.line,
            begins: 'back',
            ...(found.label === undefined ? {} : { label: found.label }),
          },
        });
      countIn(found.line, found.label);
    },
    // Whose count it is must be known before the first label.
    over === null && stopped === null && doer !== null,
  );
  const partsAsked = over?.kind === 'line' ? over.asked : null;
  const freshLine =
    partsAsked === null
      ? null
      : (record.left
          .find((one) => one.revision === partsAsked.went.revision && one.outing === partsAsked.went.outing)
          ?.state.lines.find((line) => lineKey(line) === lineKey(partsAsked.line)) ?? partsAsked.line);
  return (
    <div className="bw-return" data-gloved={preferences.gloved === true || undefined}>
      <ReturnHead
        name={name}
        task={atHand.task.name}
        revision={revision.number}
        state={state}
        resumed={state.lastLine === null ? null : `resumed at ${state.lastLine.item}`}
        leave={placeAddress({ at: 'front' })}
      />
      <div className="bw-return-body">
        <section className="bw-return-side" aria-label="Places and bags">
          <fieldset className="bw-return-places">
            <legend>Counting in at</legend>
            {[shop, ...(plan.source.places ?? []).map(({ id }) => id)].map((place) => (
              <label key={place}>
                <input type="radio" name="return-place" checked={at === place} onChange={() => setAt(place)} />
                <span>{placeName(place, plan)}</span>
              </label>
            ))}
          </fieldset>
          <ReturnBags bags={bags} state={state} things={revision.content.things} inHand={inHand} onBag={setBag} />
          <ElsewhereList
            left={record.left}
            comesHome={comesHome}
            plan={plan}
            onLine={(asked) => setOver({ kind: 'line', asked })}
          />
          <p className="bw-return-links">
            <a href={placeAddress({ at: 'return', outing, sheet: 'list' })}>Return list as it is printed</a>
            <a href={placeAddress({ at: 'record', number: String(revision.number) })}>
              Record of revision {revision.number}
            </a>
            <a href={placeAddress({ at: 'discrepancies' })}>Discrepancies</a>
            <a href={placeAddress({ at: 'asrun' })}>Records of the task</a>
          </p>
          <Button size="lg" onClick={() => setOver({ kind: 'values' })}>
            Type the values read…
          </Button>
        </section>
        <section className="bw-return-main" aria-label="Lines to count in">
          {state.faults.length === 0 ? null : (
            <p role="alert">
              <b>{state.faults.length} kept but not counted:</b>{' '}
              {state.faults.map(({ no, reason }) => `event ${no}: ${reason}`).join('; ')}.
            </p>
          )}
          <ReturnLines
            lines={state.lines.filter((line) => line.bag === inHand)}
            state={state}
            bagName={revision.content.things.find(({ id }) => id === inHand)?.name ?? inHand ?? ''}
            plan={plan}
            stays={stays}
            stepNumber={(code) => `step ${numbers.of(code)}`}
            discrepancies={record.discrepancies.filter((one) => one.revision === revision.id && one.outing === outing)}
            onCount={countIn}
            onOther={(line) => setOver({ kind: 'line', asked: { went, line } })}
          />
        </section>
      </div>
      <div className="bw-return-foot">
        <p role="status" className="bw-return-said">
          {doer === null ? 'Labels are read once it is known who counts in.' : heard}
        </p>
        {doer === null ? (
          <Button size="lg" onClick={() => withDoer(() => undefined)}>
            Say who counts in…
          </Button>
        ) : null}
        {refused === null ? null : (
          <p role="alert" className="bw-return-refused">
            <b>{refused.startsWith('NOT SAVED') ? '' : 'Not counted. '}</b>
            {refused}
          </p>
        )}
        <Button
          size="lg"
          onClick={() =>
            writeWatchOut({ learned: { in: 'return', task: atHand.id, words: `return of ${name}`.slice(0, 2000) } })
          }
        >
          Write a watch-out…
        </Button>
        {state.closed === null ? (
          <Button size="lg" variant="filled" onClick={() => withDoer((by) => setOver({ kind: 'close', by }))}>
            Close the return…
          </Button>
        ) : (
          <p>
            <b>Closed</b> {spoken(state.closed.at)} by <bdi>{state.closed.by.name}</bdi>
            {state.closed.second === null ? '' : ` and ${state.closed.second.name}`}.
          </p>
        )}
      </div>
      {stopped === null ? null : <Stopped words={stopped} onSeen={() => setStopped(null)} />}
      {partsAsked === null || freshLine === null ? null : (
        <LineDialog
          key={lineKey(freshLine)}
          line={freshLine}
          plan={plan}
          events={partsAsked.went.events}
          {...(partsAsked.begins === undefined ? {} : { begins: partsAsked.begins })}
          {...(partsAsked.label === undefined ? {} : { label: partsAsked.label })}
          at={at}
          last={lastOf(partsAsked.went, freshLine, (deed) => deedText(deed, called))}
          closed={partsAsked.went.state.closed !== null}
          homeWith={partsAsked.went === went ? 'brought home' : `brought home with ${name}`}
          onClose={() => setOver(null)}
          onDone={(title, deeds, gone) => {
            setOver(null);
            const { went: of } = partsAsked;
            const opens =
              gone === undefined || of.state.closed === null
                ? undefined
                : [goneDraft(freshLine, gone, { plan, went: of })];
            say({ of, title, deeds, ...(opens === undefined ? {} : { opens, words: 'not there any more' }) });
          }}
        />
      )}
      {over?.kind === 'close' ? (
        <CloseReturn
          by={over.by}
          drafts={drafts}
          open={openLines(state)}
          onClose={() => setOver(null)}
          onDone={(deed, words) => {
            setOver(null);
            void tried({
              ...{ revision, outing, by: over.by, title: `Close the return of ${name}`, deeds: () => [deed] },
              opens: (fresh) => toOpen(fresh, record.discrepancies, revision.id, outing),
              ...(words === null ? {} : { words }),
            });
          }}
        />
      ) : null}
      {over?.kind === 'values' ? (
        <ValuesDialog
          {...{ atHand, frozen, outing, name }}
          revision={revision.number}
          numberOf={(code) => `Step ${numbers.of(code)}`}
          onClose={() => setOver(null)}
        />
      ) : null}
      {dialog}
    </div>
  );
}
