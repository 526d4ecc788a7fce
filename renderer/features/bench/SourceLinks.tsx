import { placeAddress } from '../../store/place.ts';
import type { BenchSource } from './benchSheet.ts';

/** A source in words; where the handbook holds its table, the words lead to it. */
export function SourceLink({ source }: { source: BenchSource }) {
  if (source.table === null) return source.text;
  const row = source.row === undefined ? {} : { row: source.row };
  return <a href={placeAddress({ at: 'handbook', table: source.table, ...row })}>{source.text}</a>;
}

export function SourceList({ sources }: { sources: readonly BenchSource[] }) {
  return (
    <ul className="bw-bench-sources">
      {sources.map((source, index) => (
        <li key={`${source.text} ${index}`}>
          <SourceLink source={source} />
        </li>
      ))}
    </ul>
  );
}
