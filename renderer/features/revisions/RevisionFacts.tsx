import { useEffect, useState } from 'react';
import type { Revision } from '../../../shared-types/records/revision.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { contentHash } from '../../engine/record/chain.ts';
import { placeAddress } from '../../store/place.ts';
import { sha256 } from '../../store/sha256.ts';
import { countOf } from '../steps/words.ts';
import { groupedHash, whenText } from './revisionWords.ts';
import { useEvents } from './useRevisions.ts';

/** Whether a frozen manifest is what its hash says; null while it is counted. */
export function useIsWhole({ content, hash }: Revision): boolean | null {
  const [whole, setWhole] = useState<{ of: string; is: boolean } | null>(null);
  useEffect(() => {
    let wanted = true;
    void contentHash(content, sha256).then((found) => wanted && setWhole({ of: hash, is: found === hash }));
    return () => void (wanted = false);
  }, [content, hash]);
  return whole?.of === hash ? whole.is : null;
}

/** Who froze it, when, why, what it holds; and the sheets that are printed of it. */
export function RevisionFacts({ revision }: { revision: Revision }) {
  const { number, called, at, by, why, hash, content, broughtIn } = revision;
  const events = useEvents(revision.id);
  const whole = useIsWhole(revision);
  const pieces = content.lines.reduce((sum, { quantity }) => sum + quantity, 0);
  const parts = content.lines.reduce(
    (sum, { item, quantity }) => sum + quantity * (content.things.find(({ id }) => id === item)?.parts ?? 1),
    0,
  );
  const sheet = (of: 'manifest' | 'cards'): string => placeAddress({ at: 'frozen', number: String(number), sheet: of });
  return (
    <>
      <dl className="bw-task-facts">
        <dt>Frozen</dt>
        <dd>
          {whenText(at)} by <bdi>{by.name}</bdi>, <bdi>{by.role}</bdi>
        </dd>
        <dt>Why</dt>
        <dd>
          <bdi>{why}</bdi>
        </dd>
        <dt>Task</dt>
        <dd>
          <bdi>{called}</bdi>
        </dd>
        <dt>Holds</dt>
        <dd>
          {countOf(new Set(content.lines.map(({ outing }) => outing)).size, 'outing')} with bags,{' '}
          {countOf(content.lines.length, 'line')}, {countOf(pieces, 'piece')}
          {parts === pieces ? '' : ` of ${countOf(parts, 'part')}`}
        </dd>
        <dt>Done with it</dt>
        <dd>{events.rows.length === 0 ? 'nothing yet' : countOf(events.rows.length, 'event')}</dd>
        <dt>Content</dt>
        <dd>
          <span className="bw-code bw-rev-hash">{groupedHash(hash)}</span>{' '}
          {whole === null ? null : whole ? (
            <StateMark state="conforming" text="is what its hash says" />
          ) : (
            <StateMark state="nonconforming" text="is not what its hash says: use nothing of it" />
          )}
        </dd>
        {broughtIn === undefined ? null : (
          <>
            <dt>Brought in</dt>
            <dd>
              {whenText(broughtIn.at)} from <bdi>{broughtIn.file}</bdi>, by <bdi>{broughtIn.person}</bdi>
            </dd>
          </>
        )}
      </dl>
      <p className="bw-rev-links">
        <a href={sheet('manifest')}>Manifest of revision {number}</a>
        <a href={sheet('cards')}>Cards of revision {number}</a>
        {content.result.outings.map(({ id }) => (
          <a key={id} href={placeAddress({ at: 'pack', outing: id })}>
            Pack outing {id}
          </a>
        ))}
      </p>
    </>
  );
}
