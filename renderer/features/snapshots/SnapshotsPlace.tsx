import { useCallback, useEffect, useState } from 'react';
import { Button } from '@mantine/core';
import type { Host } from '../../../shared-types/host.ts';
import type { KeptSnapshot, SnapshotList } from '../../../shared-types/snapshot.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { UndoRedo } from '../../components/UndoRedo/UndoRedo.tsx';
import { refusalOf } from '../../store/session.ts';
import { changedMost, removedMost } from '../../store/writing/snapshotFirst.ts';
import { countOf } from '../steps/words.ts';
import { CheckPanel } from './CheckPanel.tsx';
import { everythingBytesMax } from '../../engine/everything/everythingBytes.ts';
import { saveEverything } from '../recovery/saveEverything.ts';
import { goTo } from '../session/usePlace.ts';
import { useStore } from '../session/useStore.ts';
import { useUndoRedo } from '../session/useUndoRedo.ts';
import { EverythingDialog } from './EverythingDialog.tsx';
import { snapshotFile } from './snapshotFile.ts';
import { RestoreDialog } from './RestoreDialog.tsx';
import { bytesText, damagedWords, placeWords, reasonWords, whenText } from './snapshotWords.ts';
import './snapshots.css';

export interface SnapshotsPlaceProps {
  host: Pick<Host, 'snapshots' | 'openText' | 'saveFile'>;
  /** The one that is to be looked at at once, by its name. */
  restore?: string | undefined;
}

/** What is kept beside the journal, the way back to it, and whether all of it is whole. */
export function SnapshotsPlace({ host: around, restore }: SnapshotsPlaceProps) {
  const host = around.snapshots;
  const store = useStore();
  const turns = useUndoRedo();
  const [list, setList] = useState<SnapshotList | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [said, setSaid] = useState('');
  const [busy, setBusy] = useState(false);
  const [file, setFile] = useState<{ name: string; text: string } | null>(null);
  const [chosen, setChosen] = useState<KeptSnapshot | null>(null);
  const asked = list?.snapshots.find(({ name, places }) => name === restore && places.length > 0);
  const restoring = chosen ?? asked ?? null;

  const read = useCallback(async () => {
    try {
      setList(await host.list());
      setFault(null);
    } catch (error) {
      setFault(refusalOf(error).message);
    }
  }, [host]);
  useEffect(() => void read(), [read]);

  const does = async (work: () => Promise<string>): Promise<void> => {
    setBusy(true);
    setSaid('');
    try {
      setSaid(await work());
      await read();
    } catch (error) {
      setFault(refusalOf(error).message);
    }
    setBusy(false);
  };
  const make = () =>
    does(async () => {
      const made = await host.make({ why: 'asked' });
      return made === null
        ? 'Nothing was written since the newest.'
        : `Made: ${countOf(made.seq, 'entry', 'entries')} are in it.`;
    });
  const bringIn = () =>
    does(async () => {
      const opened = await around.openText({ extensions: ['snapshot', 'json'], maxBytes: everythingBytesMax });
      setFile(opened);
      return opened === null ? 'No file was chosen.' : '';
    });
  const saveAll = () =>
    does(async () => {
      const names = await saveEverything(store, around, new Date());
      return names === null ? 'Not saved: the choice was put off.' : `Handed over: ${names.join(', ')}.`;
    });
  const saveOne = (snapshot: KeptSnapshot) =>
    does(async () => {
      const written = await around.saveFile(await snapshotFile(host, snapshot.name));
      return written ? `Handed over: ${snapshot.name}.` : 'Not saved: the choice was put off.';
    });
  const choose = () =>
    does(async () => {
      const folder = await host.chooseSecond();
      return folder === null ? 'No folder was chosen.' : `From now on each snapshot is copied to ${folder} too.`;
    });
  const leaveSecond = () =>
    does(async () => {
      await host.noSecond();
      return 'Snapshots are copied to no second folder any more. What lies there stays there.';
    });
  const meant = () =>
    does(async () => {
      await host.meant({ what: 'less-is-kept' });
      return 'Old snapshots are cleared away again from the next one on.';
    });

  return (
    <article className="bw-snapshots" aria-labelledby="snapshots-heading">
      <header className="bw-snapshots-head">
        <h1 id="snapshots-heading">Snapshots</h1>
        <span className="bw-snapshots-deeds">
          <UndoRedo {...turns} />
          <Button disabled={busy} onClick={() => void bringIn()}>
            Bring a file in…
          </Button>
          <Button disabled={busy} onClick={() => void saveAll()}>
            Save everything to a file…
          </Button>
          <Button variant="filled" loading={busy} onClick={() => void make()}>
            Make a snapshot
          </Button>
        </span>
      </header>
      <p>
        Saved means on the disk twice: in the journal and in the working copy. Beside them a snapshot is made every half
        hour in which something was written, on leaving, before more than {removedMost} records are removed at once or
        more than {changedMost} changed, and before a restore, a recovery or a new version of the program. The last 20
        stay, one a day for 14 days, one a week for 8 weeks, the last 20 from before a removal or a large change, and
        every one from before a restore, a recovery or a new version.
      </p>
      <p>
        A snapshot goes to a file and comes in from one, from this copy of the program or another, of this version or an
        earlier one; and so does everything saved as one text, journal and all.
      </p>
      <p role="status">{said}</p>
      {fault !== null && (
        <div className="bw-form-notsaved" role="alert">
          <StateMark state="not-saved" text="Not done" />
          <p>{fault}</p>
          <Button size="xs" onClick={() => void read()}>
            Read the list again
          </Button>
        </div>
      )}
      {list?.shrunk != null && (
        <div className="bw-snapshots-shrunk" role="note">
          <p>
            <b>Nothing is cleared away.</b> Of {countOf(list.shrunk.from, 'record')} there were{' '}
            {list.shrunk.to < list.shrunk.from ? `${countOf(list.shrunk.to, 'record')} left` : 'as many left'}
            {list.shrunk.tables.length === 0 ? '' : `, and none of ${list.shrunk.tables.join(', ')}`}. If that was
            meant, or is mended, say so; if not, look at what a snapshot from before would bring back.
          </p>
          <Button onClick={() => void meant()}>It was meant, or is mended: clear old ones away again</Button>
        </div>
      )}
      {list === null ? (
        fault === null && <p role="status">Reading the snapshots…</p>
      ) : (
        <>
          <Places list={list} onChoose={() => void choose()} onLeave={() => void leaveSecond()} />
          {list.snapshots.length === 0 ? (
            <p>There is none yet: make one, or go on working.</p>
          ) : (
            <SnapshotTable
              snapshots={list.snapshots}
              onRestore={setChosen}
              onSave={(snapshot) => void saveOne(snapshot)}
            />
          )}
        </>
      )}
      {list !== null && list.otherNames.length > 0 && (
        <p>
          Not listed, because a snapshot has another name: <span className="bw-code">{list.otherNames.join(', ')}</span>
          . <i>Bring a file in…</i> reads {list.otherNames.length === 1 ? 'it' : 'them'}.
        </p>
      )}
      <CheckPanel host={host} onChecked={() => void read()} />
      {file !== null && (
        <EverythingDialog
          host={host}
          file={file}
          onClose={(done) => {
            setFile(null);
            if (done !== null) setSaid(done);
            void read();
          }}
        />
      )}
      {restoring !== null && (
        <RestoreDialog
          host={host}
          snapshot={restoring}
          onClose={(done) => {
            setChosen(null);
            if (restore !== undefined) goTo({ at: 'snapshots' }, 'replace');
            if (done !== null) setSaid(done);
            void read();
          }}
        />
      )}
    </article>
  );
}

function Places({ list, onChoose, onLeave }: { list: SnapshotList; onChoose: () => void; onLeave: () => void }) {
  const { folder, second } = list;
  return (
    <dl className="bw-snapshots-places">
      <dt>They lie in</dt>
      <dd className="bw-code">{folder}</dd>
      <dt>Second folder</dt>
      <dd>
        {second === null ? (
          'none: a stick or another disk keeps them where this one is lost'
        ) : (
          <>
            <span className="bw-code">{second.folder}</span>
            {second.fault !== null && (
              <StateMark state="not-saved" text={`did not take the last one: ${second.fault}`} />
            )}
          </>
        )}
        <span className="bw-snapshots-deeds">
          <Button size="xs" onClick={onChoose}>
            Choose a folder…
          </Button>
          {second !== null && (
            <Button size="xs" onClick={onLeave}>
              Copy there no more
            </Button>
          )}
        </span>
      </dd>
    </dl>
  );
}

/** Several may be of one minute. */
const whichText = ({ utc, seq, why }: KeptSnapshot): string =>
  `${whenText(utc)}, up to entry ${seq}, ${reasonWords[why].toLowerCase()}`;

interface TableProps {
  snapshots: readonly KeptSnapshot[];
  onRestore: (snapshot: KeptSnapshot) => void;
  onSave: (snapshot: KeptSnapshot) => void;
}

function SnapshotTable({ snapshots, onRestore, onSave }: TableProps) {
  return (
    <table className="bw-snapshots-table">
      <caption>{countOf(snapshots.length, 'snapshot')}, newest first</caption>
      <thead>
        <tr>
          <th scope="col">When, by this machine’s clock</th>
          <th scope="col">Why</th>
          <th scope="col" className="bw-number">
            Up to entry
          </th>
          <th scope="col" className="bw-number">
            Size
          </th>
          <th scope="col">Where</th>
          <th scope="col">
            <span className="bw-hidden">Deeds</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {snapshots.map((snapshot) => (
          <tr key={snapshot.name}>
            <td>{whenText(snapshot.utc)}</td>
            <td>{reasonWords[snapshot.why]}</td>
            <td className="bw-number">{snapshot.seq}</td>
            <td className="bw-number">{bytesText(snapshot.bytes)}</td>
            <td>
              {placeWords[snapshot.places.join(' ')]}
              {snapshot.damaged.map(({ place, reason }) => (
                <div key={place} className="bw-snapshots-damaged">
                  <StateMark state="not-saved" text={`Damaged ${damagedWords[place]}`} /> <span>{reason}</span>
                </div>
              ))}
            </td>
            <td>
              {snapshot.places.length === 0 ? (
                'Cannot be restored'
              ) : (
                <>
                  <Button
                    size="xs"
                    aria-label={`Restore… that of ${whichText(snapshot)}`}
                    onClick={() => onRestore(snapshot)}
                  >
                    Restore…
                  </Button>
                  <Button
                    size="xs"
                    aria-label={`Save to a file… that of ${whichText(snapshot)}`}
                    onClick={() => onSave(snapshot)}
                  >
                    Save to a file…
                  </Button>
                </>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
