import { useMemo } from 'react';
import { arrangedOuting } from '../../engine/bagMap/arrangedOuting.ts';
import { mapLayout } from '../../engine/bagMap/mapLayout.ts';
import type { MapLayout } from '../../engine/bagMap/mapLayout.ts';
import { standingOf } from '../../engine/bagMap/standing.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { useSessionState } from '../session/SessionContext.ts';
import { useLaying } from './useLaying.tsx';

/** How the bags of an outing of the task at hand are laid out, by itself and by hand; null where it has no bag. */
export function useOpenMap(
  { id, plan }: Pick<TaskAtHand, 'id' | 'plan'>,
  outing: string | undefined,
): MapLayout | null {
  const { planned } = useSessionState();
  const { lines } = useLaying(id, outing);
  const result = planned?.result ?? null;
  return useMemo(() => {
    const answer = result?.outings.find((one) => one.id === outing);
    if (answer === undefined || result === null) return null;
    return mapLayout(plan, answer, arrangedOuting(plan, answer, lines, standingOf(result)).laid);
  }, [plan, result, outing, lines]);
}
