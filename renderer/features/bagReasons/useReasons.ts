import { createContext, use, useEffect, useRef, useState } from 'react';
import type { BagReasons, ReasonFound, ReasonPart } from '../../../shared-types/bagReasons.ts';
import type { BagResult } from '../../../shared-types/bag.ts';
import { addReason, noReasons } from '../../engine/bag/reasons/bagReasons.ts';
import { refusalOf } from '../../store/session.ts';
import type { KeptResult } from '../../store/session.ts';
import type { LookedAt, ReasonsAsked } from '../../workers/reasonsMessages.ts';
import { askedLast } from '../bag/asked.ts';

/** The worker's promise: reasons come one by one, and it can be called off. */
export type StartFindingReasons = (
  asked: ReasonsAsked,
  onFound: (reason: ReasonFound) => void,
) => { done: Promise<boolean>; cancel(): void; lookAt(line: LookedAt): void };

/** Null where nobody finds reasons. */
export const ReasonsContext = createContext<StartFindingReasons | null>(null);

export interface ReasonsState {
  /** `waiting`: nothing is asked for; `failed`: why no more come. */
  kind: 'waiting' | 'running' | 'done' | 'failed';
  found: BagReasons;
  refusal: string | null;
}

function copyOf({ without, tolerance, limits, limitsTogether, conflicts, losses }: BagReasons): BagReasons {
  return {
    without: [...without],
    tolerance: [...tolerance],
    limits: [...limits],
    limitsTogether: [...limitsTogether],
    conflicts: [...conflicts],
    losses: [...losses],
  };
}

const waiting: ReasonsState = { kind: 'waiting', found: noReasons(), refusal: null };

/** For each question: an explanation that takes longer is said to be open. */
const questionS = 10;
const parts: ReasonPart[] = ['faults', 'tolerance', 'without', 'limits'];
const betweenNewsMs = 200;

/** What was found for an answer stays as long as the answer itself. */
const finished = new WeakMap<BagResult, ReasonsState>();

/**
 * The reasons of the planner's answer, as they come. Looked for while they are shown; an answer's are found once.
 *
 * @param text - the plan it answers
 * @param planned - the planner's own answer; null where there is none, or another one is being looked for
 * @param lookedAt - the line in hand, whose answer comes before the others'; null where there is none
 */
export function useReasons(text: string, planned: KeptResult | null, lookedAt: LookedAt | null): ReasonsState {
  const start = use(ReasonsContext);
  const [state, setState] = useState<{ of: BagResult; state: ReasonsState } | null>(null);
  const result = planned?.result ?? null;
  const running = useRef<{ lookAt(line: LookedAt): void } | null>(null);
  const [outing, id] = [lookedAt?.outing, lookedAt?.id];
  useEffect(() => {
    if (start === null || planned === null || finished.has(planned.result)) return;
    const { result: of } = planned;
    const { minimised, tolerance, wishes } = askedLast(planned);
    let found = noReasons();
    let timer: ReturnType<typeof setTimeout> | null = null;
    const tell = (next: Pick<ReasonsState, 'kind' | 'refusal'>): void => {
      const now = { ...next, found };
      if (next.kind === 'done') finished.set(of, now);
      setState({ of, state: now });
    };
    const asking = { kind: 'running' as const, refusal: null };
    tell(asking);
    const job = start(
      { plan: text, minimise: minimised, tolerance, wishes, timeLimitS: questionS, result: of, parts },
      (reason) => {
        // New lists for each finding: what is shown is never edited in place.
        found = copyOf(found);
        addReason(found, reason);
        timer ??= setTimeout(() => {
          timer = null;
          tell(asking);
        }, betweenNewsMs);
      },
    );
    const settle = (next: Pick<ReasonsState, 'kind' | 'refusal'>): void => {
      if (timer !== null) clearTimeout(timer);
      timer = null;
      tell(next);
    };
    running.current = job;
    let left = false;
    job.done.then(
      (all) => {
        if (!left) settle(all ? { kind: 'done', refusal: null } : asking);
      },
      (error: unknown) => {
        if (!left) settle({ kind: 'failed', refusal: refusalOf(error).message });
      },
    );
    return () => {
      left = true;
      running.current = null;
      if (timer !== null) clearTimeout(timer);
      job.cancel();
    };
  }, [start, text, planned]);
  // After the search has begun: this effect stands behind that one, and runs again with each new search.
  useEffect(() => {
    if (outing !== undefined && id !== undefined) running.current?.lookAt({ outing, id });
  }, [start, text, planned, outing, id]);
  if (result === null) return waiting;
  return finished.get(result) ?? (state?.of === result ? state.state : waiting);
}
