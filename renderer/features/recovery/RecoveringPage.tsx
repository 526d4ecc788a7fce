import { Progress } from '@mantine/core';
import { cautionLead, cautionShort } from '../../engine/caution.ts';
import { grouped } from './grouped.ts';
import './recovery.css';

export interface RecoveringPageProps {
  done: number;
  of: number;
}

export function RecoveringPage({ done, of }: RecoveringPageProps) {
  const percent = of === 0 ? 100 : Math.floor((100 * done) / of);
  return (
    <main className="bw-opening">
      <h1>Reading, writing and comparing</h1>
      <p className="bw-second">
        Entries are read, records written and read back. What was there before stays as it is until the end, and after.
      </p>
      <Progress.Root size="lg" className="bw-recovering-bar">
        <Progress.Section value={percent} aria-label="How far it has come" />
      </Progress.Root>
      <p>
        {percent} %{of > 1 ? `, ${grouped(done)} of ${grouped(of)}` : ''}
      </p>
      <p className="bw-second">
        <b>{cautionLead}</b> {cautionShort}
      </p>
    </main>
  );
}
