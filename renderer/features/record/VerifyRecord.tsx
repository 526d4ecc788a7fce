import { useState } from 'react';
import { Button } from '@mantine/core';
import type { OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { chainFault } from '../../engine/record/chain.ts';
import { shortHash } from '../../engine/record/shortHash.ts';
import { sha256 } from '../../store/sha256.ts';
import { useStore } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';

interface Looked {
  /** Of how many events, and up to which one. */
  events: number;
  record: string | null;
  journal: { words: string; whole: boolean };
}

/** Looks the record and the whole journal through again, from the first byte. */
export function VerifyRecord({ revision, events }: { revision: Revision; events: readonly OutingEvent[] }) {
  const store = useStore();
  const [looked, setLooked] = useState<Looked | 'looking' | { failed: string } | null>(null);
  const look = async (): Promise<void> => {
    setLooked('looking');
    try {
      const fault = await chainFault(revision, events, sha256);
      const { head, fault: damage } = await store.verifyJournal();
      setLooked({
        events: events.length,
        record: fault === null ? null : `${fault.no === 0 ? 'The revision' : `Event ${fault.no}`}: ${fault.reason}.`,
        journal:
          damage === null
            ? {
                words: `${countOf(head.seq, 'entry', 'entries')}, head ${head.seq}, ${shortHash(head.hash)}`,
                whole: true,
              }
            : { words: `entry ${damage.seq}: ${damage.reason}`, whole: false },
      });
    } catch (error) {
      setLooked({ failed: error instanceof Error ? error.message : String(error) });
    }
  };
  return (
    <section className="bw-record-verify" aria-label="Verification">
      <Button disabled={looked === 'looking'} onClick={() => void look()}>
        Verify record and journal
      </Button>
      <div role="status">
        {looked === null ? null : looked === 'looking' ? (
          <p>Reading everything again…</p>
        ) : 'failed' in looked ? (
          <p>It could not be looked through: {looked.failed}</p>
        ) : (
          <>
            <p className="bw-record-said">
              <StateMark
                state={looked.record === null ? 'conforming' : 'nonconforming'}
                text={looked.record === null ? 'Record whole' : 'Record damaged'}
              />{' '}
              {looked.record ??
                `Frozen content and ${countOf(looked.events, 'event')}: each is what its hash says and follows the one before it.`}
            </p>
            <p className="bw-record-said">
              <StateMark
                state={looked.journal.whole ? 'conforming' : 'nonconforming'}
                text={looked.journal.whole ? 'Journal whole' : 'Journal damaged'}
              />{' '}
              {looked.journal.words}. A cut end shows by the head that a printed page names.
            </p>
          </>
        )}
      </div>
    </section>
  );
}
