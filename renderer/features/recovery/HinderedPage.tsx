import { useEffect, useRef, useState } from 'react';
import { Button } from '@mantine/core';
import type { Host } from '../../../shared-types/host.ts';
import { cautionLead, cautionShort } from '../../engine/caution.ts';
import { draftsKept } from '../../components/RecordForm/keptDraft.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import type { Hindrance, Store, Tally } from '../../store/store.ts';
import { ChainDrawing } from './ChainDrawing.tsx';
import { goTo } from '../session/usePlace.ts';
import { explained } from './explained.ts';
import type { Way, WayName } from './explained.ts';
import { saveEverything } from './saveEverything.ts';
import { sidesOf, tallyRows } from './tallies.ts';
import { TallyTable } from './TallyTable.tsx';
import './recovery.css';

/** As many of a kind on both sides, and entries between the two that may have changed any of them. */
function mayMislead(sides: { journal: Tally; found: Tally | null }): boolean {
  return sides.found?.seq !== sides.journal.seq && tallyRows(sides).some(({ journal, found }) => journal === found);
}

export interface HinderedPageProps {
  store: Store;
  host: Host;
  /** Where this copy keeps its data; null while that is not known. */
  folder: string | null;
  hindrance: Hindrance;
  /** What was tried last, and why it was not done. */
  failed?: string | null | undefined;
  /** How the page is loaded again; the browser's own way unless a test watches. */
  loadAgain?: () => void;
}

const reloadPage = (): void => location.reload();

const busyWords: Record<WayName, string> = {
  rebuild: 'Building…',
  'keep-copy': 'Beginning a new journal…',
  'try-again': 'Comparing…',
  'load-again': 'Loading…',
  'save-everything': 'Reading everything…',
  'look-at-snapshot': 'Opening…',
  'go-on-without': 'Opening…',
};

/** In place of the work, where journal and working copy do not agree: both sides, and the ways on. */
export function HinderedPage({
  store,
  host,
  folder,
  hindrance,
  failed = null,
  loadAgain = reloadPage,
}: HinderedPageProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  const [busy, setBusy] = useState<WayName | null>(null);
  const [asking, setAsking] = useState<Way | null>(null);
  const [done, setDone] = useState<string | null>(null);
  const [failedHere, setFailedHere] = useState<string | null>(null);
  const { heading: title, says, ways } = explained(hindrance);
  const sides = sidesOf(hindrance);
  const drafts = draftsKept();
  const notDone = busy === null ? (failedHere ?? failed) : null;

  useEffect(() => {
    document.title = `${title} · Bagwright`;
    heading.current?.focus();
  }, [title]);

  const deeds: Record<WayName, () => Promise<void>> = {
    rebuild: () => store.rebuildFromJournal(),
    'keep-copy': () => store.keepWorkingCopy(),
    'try-again': () => store.open(),
    'load-again': async () => loadAgain(),
    'look-at-snapshot': async () => {
      const whole = hindrance.kind === 'snapshot-further' ? hindrance.further.whole : null;
      goTo({ at: 'snapshots', ...(whole === null ? {} : { restore: whole.name }) });
      await store.openAsItIs();
    },
    'go-on-without': () => store.goOnWithout(),
    'save-everything': async () => {
      const names = await saveEverything(store, host, new Date());
      setDone(names === null ? 'Not saved: the choice was put off.' : `Handed over: ${names.join(', ')}.`);
    },
  };
  const go = ({ name, label }: Way): void => {
    setAsking(null);
    setBusy(name);
    setDone(null);
    setFailedHere(null);
    deeds[name]()
      .catch((error: unknown) => {
        const words = error instanceof Error ? error.message : String(error);
        setFailedHere(`${label.replace(/…$/, '')}: not done. ${words}`);
      })
      .finally(() => setBusy(null));
  };

  return (
    <main className="bw-hindered">
      <h1 ref={heading} tabIndex={-1} className="bw-heading">
        {title}
      </h1>
      {says.map((text) => (
        <p key={text} className="bw-hindered-says">
          {text}
        </p>
      ))}
      {drafts === 0 ? null : (
        <p className="bw-hindered-says">
          {drafts === 1
            ? 'What was typed in a form and not saved is kept apart, and comes back when the form is opened again.'
            : `What was typed in ${drafts} forms and not saved is kept apart, and comes back when each is opened again.`}
        </p>
      )}
      {sides === null ? null : (
        <section className="bw-hindered-sides" aria-label="What should be there and what was found">
          <ChainDrawing {...sides} />
          <TallyTable {...sides} />
          {mayMislead(sides) && (
            <p className="bw-second">Only numbers are compared here: the same number does not mean the same records.</p>
          )}
        </section>
      )}
      <section aria-labelledby="ways-heading">
        <h2 id="ways-heading">{ways.length === 1 ? 'The way on' : 'Ways on, the safest first'}</h2>
        <p className="bw-second">None of them deletes anything.</p>
        <ul className="bw-ways">
          {ways.map((way, index) => (
            <li key={way.name}>
              <Button
                variant={index === 0 ? 'filled' : 'default'}
                disabled={busy !== null}
                aria-describedby={`way-${way.name}`}
                onClick={() => (way.asks === null ? go(way) : setAsking(way))}
              >
                {busy === way.name ? busyWords[way.name] : way.label}
              </Button>
              <p id={`way-${way.name}`}>{way.says}</p>
            </li>
          ))}
        </ul>
      </section>
      <p role="status" className="bw-hindered-done">
        {busy === null ? done : busyWords[busy]}
      </p>
      {notDone === null ? null : (
        <p role="alert" className="bw-hindered-failed">
          {notDone}
        </p>
      )}
      <p className="bw-second">
        {folder === null
          ? 'The folder of the journal is not known while the program does not answer.'
          : 'The journal is kept in '}
        {folder === null ? null : <span className="bw-code">{folder}</span>}
      </p>
      <p className="bw-second">
        <b>{cautionLead}</b> {cautionShort}
      </p>
      {asking === null ? null : (
        <Dialog title={asking.label.replace(/…$/, '')} onClose={() => setAsking(null)}>
          <p>{asking.asks}</p>
          <div className="bw-hindered-ask">
            <Button variant="filled" onClick={() => go(asking)}>
              {asking.label.replace(/…$/, '')}
            </Button>
            <Button onClick={() => setAsking(null)}>Leave it as it is</Button>
          </div>
        </Dialog>
      )}
    </main>
  );
}
