import { useEffect, useState } from 'react';
import { Button } from '@mantine/core';
import type { Item } from '../../../../shared-types/records/item.ts';
import { useStore } from '../../session/useStore.ts';
import { historyLines } from './historyLines.ts';
import type { HistoryLine } from './historyLines.ts';
import './page.css';

type Read =
  | { kind: 'not-asked' }
  | { kind: 'reading' }
  | { kind: 'fault'; reason: string }
  | { kind: 'read'; lines: HistoryLine[] };

const shownMost = 30;

/** Who changed it and when, out of the journal: read when it is asked for, since the whole journal is gone through. */
export function ItemHistory({ item }: { item: Item }) {
  const store = useStore();
  const [asked, setAsked] = useState(false);
  const [read, setRead] = useState<Read>({ kind: 'not-asked' });
  const { id, rev } = item;
  useEffect(() => {
    if (!asked) return undefined;
    let left = false;
    setRead({ kind: 'reading' });
    store.changesOf('items', id).then(
      (changes) => (left ? undefined : setRead({ kind: 'read', lines: historyLines(changes) })),
      (error: unknown) =>
        left ? undefined : setRead({ kind: 'fault', reason: error instanceof Error ? error.message : String(error) }),
    );
    return () => {
      left = true;
    };
    // Each revision is a change more.
  }, [asked, store, id, rev]);
  return (
    <section className="bw-item-history" aria-labelledby="item-history">
      <h2 id="item-history">History</h2>
      {read.kind === 'not-asked' ? (
        <Button size="xs" onClick={() => setAsked(true)}>
          Show who changed it, and when
        </Button>
      ) : read.kind === 'reading' ? (
        <p role="status">Reading the journal…</p>
      ) : read.kind === 'fault' ? (
        <p role="alert">The journal could not be read: {read.reason}.</p>
      ) : (
        <Lines lines={read.lines} />
      )}
    </section>
  );
}

function Lines({ lines }: { lines: readonly HistoryLine[] }) {
  if (lines.length === 0) return <p className="bw-second">The journal has no entry about it.</p>;
  return (
    <>
      <ol>
        {lines.slice(0, shownMost).map(({ seq, at, by, title, fields, kind }) => (
          <li key={seq}>
            <div>
              <b>{title}</b>{' '}
              <span className="bw-second">
                {at}, {by === '' ? 'by nobody named' : `by ${by}`}
              </span>
            </div>
            {kind === 'came' ? <div className="bw-second">came to the shelf</div> : null}
            {kind === 'went' ? <div className="bw-second">was removed</div> : null}
            {fields.map(({ label, before, after }) => (
              <div key={label} dir="auto">
                {label}: {before} → {after}
              </div>
            ))}
          </li>
        ))}
      </ol>
      {lines.length > shownMost ? <p className="bw-second">and {lines.length - shownMost} earlier changes</p> : null}
    </>
  );
}
