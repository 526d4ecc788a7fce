import type { ReactNode } from 'react';
import './SourceNote.css';

/** Where the figures above come from, how they were obtained, how they are rounded. */
export function SourceNote({ children }: { children: ReactNode }) {
  return <p className="bw-source">{children}</p>;
}
