import { useRef } from 'react';
import type { KeyboardEvent, ReactNode } from 'react';
import './JobLine.css';

export interface JobPlace {
  name: string;
  address: string;
  current: boolean;
  /** Share that is done, 0 to 1: the thick part of the line. */
  done: number;
  /** What is missing or reached, under the line. */
  word: ReactNode;
}

export interface JobLineProps {
  /** Task name, its origin, and the way to another task. */
  task: ReactNode;
  places: JobPlace[];
  /** The inspector's places: a chain of their own, apart from the first. */
  inspection?: JobPlace[];
}

const noPlaces: JobPlace[] = [];

const steps: Record<string, number> = { ArrowRight: 1, ArrowLeft: -1 };

/** The job as two chains of dimensions. One tab stop; the arrow keys walk from one into the other. */
export function JobLine({ task, places, inspection = noPlaces }: JobLineProps) {
  const chain = useRef<HTMLDivElement>(null);
  const currentIndex = [...places, ...inspection].findIndex((place) => place.current);
  const stop = currentIndex < 0 ? 0 : currentIndex;

  const walk = (event: KeyboardEvent): void => {
    const links = [...(chain.current?.querySelectorAll<HTMLAnchorElement>('a') ?? [])];
    const at = links.findIndex((link) => link === document.activeElement);
    const to =
      event.key === 'Home' ? 0 : event.key === 'End' ? links.length - 1 : at + (steps[event.key] ?? Number.NaN);
    const link = links[to];
    if (at < 0 || link === undefined) return;
    event.preventDefault();
    link.focus();
  };

  return (
    <nav className="bw-job" aria-label="Job line">
      <div className="bw-job-task">{task}</div>
      <div ref={chain} className="bw-job-chains" role="presentation" onKeyDown={walk}>
        <Chain places={places} stop={stop} />
        {inspection.length === 0 ? null : <Chain places={inspection} stop={stop - places.length} apart />}
      </div>
    </nav>
  );
}

function Chain({ places, stop, apart = false }: { places: JobPlace[]; stop: number; apart?: boolean }) {
  return (
    <ul
      className="bw-job-chain"
      data-apart={apart || undefined}
      style={{ flexGrow: places.length * (apart ? 1.2 : 1) }}
    >
      {places.map(({ name, address, current, done, word }, index) => (
        <li key={name}>
          <a
            className="bw-job-place"
            href={address}
            aria-current={current ? 'page' : undefined}
            tabIndex={index === stop ? 0 : -1}
          >
            <span className="bw-job-name">{name}</span>
            <span className="bw-job-line" />
            <span className="bw-job-done" style={{ width: `${Math.round(Math.min(Math.max(done, 0), 1) * 100)}%` }} />
            <span className="bw-job-word">{word}</span>
          </a>
        </li>
      ))}
    </ul>
  );
}
