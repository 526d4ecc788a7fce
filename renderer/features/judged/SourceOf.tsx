import type { FindingSource } from '../../../shared-types/judged.ts';
import { placeAddress } from '../../store/place.ts';

/** What stands behind a finding: the table one click away, or our own words where no document states it. */
export function SourceOf({ source }: { source: FindingSource }) {
  if (typeof source === 'string') return source;
  const { key, number, table, edition, obtained } = source;
  return (
    <>
      <a href={placeAddress({ at: 'handbook', table: key })}>
        {number}, {table}
      </a>{' '}
      ({edition}), {obtained}
    </>
  );
}
