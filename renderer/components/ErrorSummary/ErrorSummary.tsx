import { useEffect, useRef, useState } from 'react';
import { Button } from '@mantine/core';
import type { Refusal } from '../../../shared-types/errors.ts';
import './ErrorSummary.css';

export interface ErrorSummaryProps {
  /** What was refused: a file's name. */
  name: string;
  verb?: string;
  refusal: Refusal;
  /** What stays as it was: "Skua Rock light stays open." */
  remains: string;
  onClose: () => void;
}

const shownAtFirst = 50;

function shown(value: unknown): string {
  const text = typeof value === 'string' ? `"${value}"` : JSON.stringify(value);
  return text === undefined ? '' : text.length > 120 ? `${text.slice(0, 120)}…` : text;
}

function Fault({ fault, file }: { fault: Refusal; file: string }) {
  return (
    <li className="bw-refused-fault">
      <div>{fault.message}</div>
      <div className="bw-refused-where">
        <span>{fault.file ?? file}</span>
        {fault.row === undefined ? null : <span>row {fault.row}</span>}
        {fault.field === undefined ? null : <span className="bw-code">{fault.field}</span>}
        {fault.value === undefined ? null : <span>value {shown(fault.value)}</span>}
        {fault.position === undefined ? null : <span>character {fault.position}</span>}
      </div>
    </li>
  );
}

/** Why a file was not taken: every fault with file, row, field, value and reason. Takes the focus when it appears. */
export function ErrorSummary({ name, verb = 'was not opened', refusal, remains, onClose }: ErrorSummaryProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  const [limit, setLimit] = useState(shownAtFirst);
  const faults = refusal.rows !== undefined && refusal.rows.length > 0 ? refusal.rows : [refusal];
  useEffect(() => {
    setLimit(shownAtFirst);
    heading.current?.focus();
  }, [refusal]);
  return (
    <section className="bw-refused" aria-labelledby="refused-heading">
      <div className="bw-refused-head">
        <h2 id="refused-heading" ref={heading} tabIndex={-1}>
          {name} {verb}: {faults.length === 1 ? '1 fault' : `${faults.length} faults`}
        </h2>
        <Button onClick={onClose}>Close this list</Button>
      </div>
      <p className="bw-second">{remains}</p>
      <ol className="bw-refused-list" tabIndex={0} aria-label="Faults">
        {faults.slice(0, limit).map((fault, index) => (
          <Fault key={index} fault={fault} file={name} />
        ))}
      </ol>
      {faults.length > limit ? (
        <p className="bw-refused-tail">
          {limit} of {faults.length} shown.{' '}
          <button type="button" className="bw-link" onClick={() => setLimit(limit + 200)}>
            Show {Math.min(200, faults.length - limit)} more
          </button>
        </p>
      ) : null}
    </section>
  );
}
