import { useMemo } from 'react';
import type { Interface } from '../../../shared-types/records/site.ts';
import { PatternPlan } from '../../components/PatternPlan/PatternPlan.tsx';
import { cautionShort } from '../../engine/caution.ts';
import { RefusedError } from '../../engine/errors.ts';
import { turnSeen } from '../../engine/pattern/index.ts';
import type { Turn } from '../../engine/pattern/index.ts';
import { readThread } from '../../engine/thread/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { planOf } from './patternDraft.ts';
import './pattern.css';

/** Which way its fastener tightens as the worker sees it; null where its thread is not known. */
function turnOf(thread: string | null, mirrored: boolean): Turn | null {
  if (thread === null) return null;
  try {
    return turnSeen({ hand: readThread(thread).hand, tightens: true, mirrored });
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}

interface PatternOfProps {
  one: Interface;
  /** Of its fastener; null where it has none, or it is on no shelf. */
  thread: string | null;
  units: UnitsShown;
}

/** Where an interface's positions lie, drawn, and the order they are tightened in. */
export function PatternOf({ one, thread, units }: PatternOfProps) {
  const { code, pattern = '', count, order = [], mirrored = false } = one;
  const plan = useMemo(() => planOf(pattern, count), [pattern, count]);
  if (plan === null)
    return (
      <>
        {pattern === '' ? null : <p className="bw-second">Not drawn: “{pattern}” cannot be read as a pattern.</p>}
        {order.length === 0 ? null : <p>Order of tightening: {order.join(', ')}.</p>}
      </>
    );
  return (
    <section aria-label="Pattern and order">
      <PatternPlan
        name={`interface ${code}`}
        pattern={plan.pattern}
        points={plan.points}
        order={order}
        mirrored={mirrored}
        turn={turnOf(thread, mirrored)}
        units={units}
      />
      {order.length === 0 ? null : (
        <p>
          Order of tightening: <b>{order.join(', ')}</b>. <span className="bw-second bw-small">{cautionShort}</span>
        </p>
      )}
    </section>
  );
}
