import { useId } from 'react';
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { SaidWatchOut } from '../../engine/watchOuts/index.ts';
import { placeAddress } from '../../store/place.ts';
import { learnedWords } from './watchOutRows.tsx';
import './watchOuts.css';

export interface SaidWatchOutsProps {
  title: string;
  said: readonly SaidWatchOut[];
  /** Begins another one that is tied to what this is. */
  onWrite?: () => void;
  /** What is said before them, as the cautions of a step: items of the list. */
  first?: ReactNode;
}

/** Why it is said here. */
function whyHere({ from }: SaidWatchOut): ReactNode {
  if (from.kind !== 'record') return `of ${from.kind} ${from.called}`;
  const { record, by } = from;
  const { learned } = record;
  return (
    <>
      tied to {by.map(({ to, called }) => `${to} ${called}`).join(', ')};{' '}
      <a href={placeAddress({ at: 'watchouts', watchOut: record.id })}>
        {learnedWords[learned.in].toLowerCase()}
        {learned.words === undefined ? '' : ` ${learned.words}`}, {learned.on}
      </a>
    </>
  );
}

/** What was learned about the thing in hand, each with where it comes from; null where nothing is said and nothing can be. */
export function SaidWatchOuts({ title, said, onWrite, first }: SaidWatchOutsProps) {
  const headingId = useId();
  const write =
    onWrite === undefined ? null : (
      <Button size="xs" onClick={onWrite}>
        Write a watch-out…
      </Button>
    );
  if (said.length === 0 && (first === undefined || first === null))
    return write === null ? null : <div className="bw-watchout-none">{write}</div>;
  return (
    <section className="bw-watch" aria-labelledby={headingId}>
      <h3 id={headingId}>{title}</h3>
      <ul>
        {first}
        {said.map((one) => (
          <li key={one.text}>
            <span dir="auto">{one.text}</span> <span className="bw-second bw-small">({whyHere(one)})</span>
          </li>
        ))}
      </ul>
      {write}
    </section>
  );
}
