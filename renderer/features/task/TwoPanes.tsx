import { useEffect, useId, useRef } from 'react';
import type { KeyboardEvent, ReactNode, Ref } from 'react';
import { useMediaQuery } from '@mantine/hooks';
import '../steps/steps.css';
import './task.css';

export interface TwoPanesProps {
  /** Of the list. */
  heading: string;
  /** What the pane beside is. */
  region: string;
  /** Beside the heading of the list. */
  said: ReactNode;
  buttons?: ReactNode;
  table: ReactNode;
  tableRef?: Ref<HTMLDivElement>;
  /** What the pane beside shows; it begins at its top for each. */
  inHand: string | null;
  onTableKey?: (event: KeyboardEvent) => void;
  children: ReactNode;
}

/** A list, and what is in hand of it beside. Where the panes stack, the thing in hand comes first, for the eye and the keys alike. */
export function TwoPanes(props: TwoPanesProps) {
  const { heading, region, said, buttons, table, tableRef, inHand, onTableKey, children } = props;
  const stacked = useMediaQuery('(max-width: 1100px)', false, { getInitialValueInEffect: false });
  const headingId = useId();
  const pane = useRef<HTMLDivElement>(null);
  useEffect(() => {
    pane.current?.scrollTo(0, 0);
  }, [inHand]);
  const list = (
    <section key="list" className="bw-pane-list" aria-labelledby={headingId}>
      <div className="bw-pane-bar">
        <h2 id={headingId}>{heading}</h2>
        <span className="bw-second bw-small">{said}</span>
        {buttons === undefined ? null : <span className="bw-pane-bar-end">{buttons}</span>}
      </div>
      <div ref={tableRef} className="bw-pane-table" role="presentation" onKeyDownCapture={onTableKey}>
        {table}
      </div>
    </section>
  );
  const beside = (
    <div key="detail" ref={pane} className="bw-pane-detail" role="region" aria-label={region} tabIndex={0}>
      {children}
    </div>
  );
  return <div className="bw-split">{stacked ? [beside, list] : [list, beside]}</div>;
}
