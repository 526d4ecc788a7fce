import { Suspense, lazy, useMemo, useState } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import { stepFacts } from '../../engine/cards/index.ts';
import type { StepFacts } from '../../engine/cards/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { useKnownWords } from '../record/useKnownWords.ts';
import { RevisionBar } from '../revisions/RevisionBar.tsx';
import { OutingChooser } from '../session/OutingChooser.tsx';
import { useSession, useSessionState } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { NoSteps } from '../steps/NoSteps.tsx';
import { useSiteRows, useTaskRows } from '../task/useTaskRows.ts';
import { useCarried } from '../watchOuts/useCarried.ts';
import './cards.css';

// It brings a reader of PDFs with it, as the manifest does.
const CardsSheet = lazy(async () => ({ default: (await import('./CardsSheet.tsx')).CardsSheet }));

export interface CardsPlaceProps {
  atHand: TaskAtHand;
  place: Extract<Place, { at: 'cards' }>;
  host: Host;
  now: () => Date;
}

/**
 * The same object as long as it says the same. A record changes before the plan is read anew, and what the plan alone says must not print
 * the plan of before once more.
 */
function useSame(facts: Map<string, StepFacts> | null): Map<string, StepFacts> | null {
  const key = useMemo(() => (facts === null ? '' : JSON.stringify([...facts])), [facts]);
  const [kept, setKept] = useState({ key, facts });
  if (kept.key === key) return kept.facts;
  setKept({ key, facts });
  return facts;
}

/** The cards of the task at hand; or why there are none yet. */
export function CardsPlace({ atHand, place, host, now }: CardsPlaceProps) {
  const session = useSession();
  const { preferences, result, former } = useSessionState();
  const rows = useTaskRows(atHand.id);
  const { interfaces } = useSiteRows();
  const steps = rows.kind === 'ready' ? rows.steps : null;
  const carried = useCarried(atHand.id, result?.result ?? null);
  const facts = useSame(
    useMemo(
      () => (steps === null || carried === null ? null : stepFacts(steps, interfaces, carried)),
      [steps, interfaces, carried],
    ),
  );
  const { plan } = atHand;
  const asked = plan.outings.find(({ id }) => id === place.outing) ?? result?.result.outings[0] ?? plan.outings[0];
  const known = useKnownWords({ task: atHand.id, plan, outing: asked?.id, revision: null });
  if (plan.steps.length === 0)
    return (
      <div className="bw-pane-detail">
        <NoSteps />
      </div>
    );
  const outing = asked;
  if (result === null || outing === undefined)
    return (
      <div className="bw-pane-detail">
        <RevisionBar atHand={atHand} sheet="cards" />
        <h1>No cards yet</h1>
        <p>
          {former === null
            ? 'A card says which stack turns a step and what it is set to: the planned bag decides that. '
            : 'The task has been changed since its bag was planned. Cards of an earlier state are not shown or printed. '}
          <a href={placeAddress({ at: 'bag' })}>{former === null ? 'Plan the bag' : 'Plan the bag again'}</a> first.
        </p>
      </div>
    );
  if (rows.kind === 'fault') return <p className="bw-pane-detail">The steps could not be read: {rows.reason}</p>;
  const opening = (
    <p className="bw-pane-detail" role="status">
      Opening the cards…
    </p>
  );
  if (facts === null || known === null) return opening;
  const roles = plan.outings.find(({ id }) => id === outing.id)?.roles ?? [];
  const role = place.role !== undefined && roles.includes(place.role) ? place.role : null;
  return (
    <Suspense fallback={opening}>
      <div className="bw-pane-bar">
        <OutingChooser
          plan={plan}
          outing={outing.id}
          onOuting={(id) => goTo({ at: 'cards', outing: id, ...(role === null ? {} : { role }) }, 'replace')}
        />
      </div>
      <RevisionBar atHand={atHand} sheet="cards" />
      <CardsSheet
        plan={plan}
        result={result.result}
        facts={facts}
        known={known}
        fileName={atHand.name}
        outing={outing.id}
        role={role}
        onRole={(next) => goTo({ at: 'cards', outing: outing.id, ...(next === null ? {} : { role: next }) }, 'replace')}
        units={preferences.units}
        host={host}
        person={preferences.person}
        paper={preferences.paper}
        onPaper={(paper) => session.prefer({ paper })}
        now={now}
      />
    </Suspense>
  );
}
