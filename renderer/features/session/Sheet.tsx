import { Suspense, lazy } from 'react';
import type { Host, HostInfo } from '../../../shared-types/host.ts';
import { dayText } from '../../store/clock.ts';
import { placeAddress } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { BagSheet } from '../bag/BagSheet.tsx';
import type { Planning, PlanningState } from '../bag/planning.ts';
import { useOpenMap } from '../bagMap/useOpenMap.ts';
import { CalloutsPlace } from '../callouts/CalloutsPlace.tsx';
import { CardsPlace } from '../cards/CardsPlace.tsx';
import { CatalogHall } from '../catalog/CatalogHall.tsx';
import { demoPlans } from '../first-page/demoPlans.ts';
import { FirstPage } from '../first-page/FirstPage.tsx';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { OutingsSheet } from '../outings/OutingsSheet.tsx';
import { FrontSheet } from '../overview/FrontSheet.tsx';
import { SitesHall } from '../sites/SitesHall.tsx';
import { NoSteps } from '../steps/NoSteps.tsx';
import { StepsSheet } from '../steps/StepsSheet.tsx';
import { RevisionBar } from '../revisions/RevisionBar.tsx';
import { useKnownWords } from '../record/useKnownWords.ts';
import { OutingChooser } from './OutingChooser.tsx';
import { useCarried } from '../watchOuts/useCarried.ts';
import { WatchOutsHall } from '../watchOuts/WatchOutsHall.tsx';
import { useSession, useSessionState } from './SessionContext.ts';
import type { WindowDeeds } from './useDeeds.ts';
import { goTo } from './usePlace.ts';

// The manifest brings a reader of PDFs with it, which nothing else needs.
const ManifestSheet = lazy(async () => ({ default: (await import('../manifest/ManifestSheet.tsx')).ManifestSheet }));

// Labels bring the reader of PDFs too.
const LabelsPlace = lazy(async () => ({ default: (await import('../labels/LabelsPlace.tsx')).LabelsPlace }));

// Two kits are held against each other once in a while.
const SnapshotsPlace = lazy(async () => ({
  default: (await import('../snapshots/SnapshotsPlace.tsx')).SnapshotsPlace,
}));
const KitsPlace = lazy(async () => ({ default: (await import('../kits/KitsPlace.tsx')).KitsPlace }));

// Neither are the halls of reference a part of the way to the bag.
const BenchHall = lazy(async () => ({ default: (await import('../bench/BenchHall.tsx')).BenchHall }));
const HandbookHall = lazy(async () => ({ default: (await import('../handbook/HandbookHall.tsx')).HandbookHall }));

// What comes back and what was done is looked at by those who pack and count.
const ReturnPlace = lazy(async () => ({ default: (await import('../return/ReturnPlace.tsx')).ReturnPlace }));
const RecordPlace = lazy(async () => ({ default: (await import('../record/RecordPlace.tsx')).RecordPlace }));
const DiscrepanciesPlace = lazy(async () => ({
  default: (await import('../record/DiscrepanciesPlace.tsx')).DiscrepanciesPlace,
}));

// Neither do they who only plan look at what was recorded.
const AsRunPlace = lazy(async () => ({ default: (await import('../asrun/AsRunPlace.tsx')).AsRunPlace }));
const FindingsPlace = lazy(async () => ({ default: (await import('../findings/FindingsPlace.tsx')).FindingsPlace }));

// What was frozen is looked at once it is.
const RevisionsPlace = lazy(async () => ({
  default: (await import('../revisions/RevisionsPlace.tsx')).RevisionsPlace,
}));
// Neither does who plans pack.
const PackPlace = lazy(async () => ({ default: (await import('../pack/PackPlace.tsx')).PackPlace }));

const FrozenPlace = lazy(async () => ({ default: (await import('../revisions/FrozenPlace.tsx')).FrozenPlace }));

export interface SheetProps {
  place: Place;
  host: Host;
  info: HostInfo | null;
  deeds: WindowDeeds;
  planning: Planning;
  planningState: PlanningState;
  now: () => Date;
}

/** What the address asks for. */
export function Sheet({ place, host, info, deeds, planning, planningState, now }: SheetProps) {
  const session = useSession();
  const { preferences, atHand, result, planned, former, past } = useSessionState();
  const { units } = preferences;
  const today = dayText(now());
  if (place.at === 'catalog') return <CatalogHall place={place} units={units} today={today} host={host} />;
  if (place.at === 'sites') return <SitesHall place={place} units={units} />;
  if (place.at === 'watchouts') return <WatchOutsHall place={place} person={preferences.person} now={now} />;
  if (place.at === 'labels')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the labels…</p>}>
        <LabelsPlace place={place} host={host} now={now} />
      </Suspense>
    );
  if (place.at === 'snapshots')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the snapshots…</p>}>
        <SnapshotsPlace host={host} restore={place.restore} />
      </Suspense>
    );
  if (place.at === 'kits')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the kits…</p>}>
        <KitsPlace place={place} units={units} />
      </Suspense>
    );
  if (place.at === 'handbook')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the handbook…</p>}>
        <HandbookHall place={place} units={units} />
      </Suspense>
    );
  if (place.at === 'bench')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the bench…</p>}>
        <BenchHall place={place} host={host} units={units} now={now} />
      </Suspense>
    );
  if (place.at === 'discrepancies')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the discrepancies…</p>}>
        <DiscrepanciesPlace place={place} task={atHand?.id ?? null} host={host} now={now} />
      </Suspense>
    );
  if (place.at === 'first')
    return (
      <FirstPage
        atHand={atHand}
        demos={demoPlans}
        onBringFileIn={deeds.bringFileIn}
        onBringDemoIn={deeds.bringDemoIn}
        onSaveDemo={deeds.saveDemo}
        onOpenTask={deeds.openTask}
        person={preferences.person}
        onPerson={(person) => session.prefer({ person })}
        dataFolder={info?.dataFolder ?? null}
      />
    );
  if (atHand === null)
    return (
      <p className="bw-pane-detail" role="status">
        Reading the task…
      </p>
    );
  const { plan, missing } = atHand;
  if (place.at === 'front')
    return <FrontSheet atHand={atHand} result={result} former={former} units={units} today={today} />;
  if (place.at === 'return')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the return…</p>}>
        <ReturnPlace place={place} atHand={atHand} host={host} now={now} />
      </Suspense>
    );
  if (place.at === 'record')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the record…</p>}>
        <RecordPlace place={place} atHand={atHand} host={host} now={now} />
      </Suspense>
    );
  if (place.at === 'callouts')
    return <CalloutsPlace place={place} atHand={atHand} host={host} units={units} person={preferences.person} />;
  if (place.at === 'asrun')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the records…</p>}>
        <AsRunPlace
          place={place}
          atHand={atHand}
          host={host}
          units={units}
          person={preferences.person}
          today={isoWithOffset(now()).slice(0, 10)}
        />
      </Suspense>
    );
  if (place.at === 'findings')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the findings…</p>}>
        <FindingsPlace
          place={place}
          atHand={atHand}
          host={host}
          units={units}
          person={preferences.person}
          paper={preferences.paper}
        />
      </Suspense>
    );
  if (place.at === 'steps')
    return (
      <StepsSheet
        taskId={atHand.id}
        plan={plan}
        missing={missing}
        stepId={place.step}
        result={result?.result ?? null}
        units={units}
        host={host}
      />
    );
  if (place.at === 'outings')
    return (
      <OutingsSheet
        taskId={atHand.id}
        text={atHand.text}
        file={atHand.name}
        kept={result}
        plan={plan}
        missing={missing}
        outing={place.outing}
        units={units}
      />
    );
  if (place.at === 'bag')
    return (
      <BagSheet
        atHand={atHand}
        kept={result}
        planned={planned}
        former={former}
        past={past}
        planning={planningState}
        outingId={place.outing}
        line={place.line}
        units={units}
        onPlan={planning.start}
        onCancel={planning.cancel}
        onSave={deeds.saveResult}
      />
    );
  if (place.at === 'cards') return <CardsPlace atHand={atHand} place={place} host={host} now={now} />;
  if (place.at === 'pack')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening what is packed…</p>}>
        <PackPlace place={place} atHand={atHand} now={now} />
      </Suspense>
    );
  if (place.at === 'revisions' || place.at === 'frozen')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the frozen manifests…</p>}>
        {place.at === 'revisions' ? (
          <RevisionsPlace place={place} atHand={atHand} host={host} now={now} />
        ) : (
          <FrozenPlace place={place} atHand={atHand} host={host} now={now} />
        )}
      </Suspense>
    );
  return <ManifestPlace atHand={atHand} asked={place.outing} host={host} />;
}

function ManifestPlace({ atHand, asked, host }: { atHand: TaskAtHand; asked: string | undefined; host: Host }) {
  const session = useSession();
  const { preferences, result, former } = useSessionState();
  const carried = useCarried(atHand.id, result?.result ?? null);
  const { plan } = atHand;
  const outing = plan.outings.find(({ id }) => id === asked) ?? result?.result.outings[0] ?? plan.outings[0];
  const known = useKnownWords({ task: atHand.id, plan, outing: outing?.id, revision: null });
  const map = useOpenMap(atHand, outing?.id);
  if (plan.steps.length === 0)
    return (
      <div className="bw-pane-detail">
        <NoSteps />
      </div>
    );
  if (result === null || outing === undefined)
    return (
      <div className="bw-pane-detail">
        <RevisionBar atHand={atHand} />
        <h1>No manifest yet</h1>
        <p>
          {former === null
            ? 'The manifest lists a planned bag. '
            : 'The task has been changed since its bag was planned, so that bag is no longer its manifest. '}
          <a href={placeAddress({ at: 'bag' })}>Plan the bag</a> first.
        </p>
      </div>
    );
  const opening = <p className="bw-pane-detail">Opening the manifest…</p>;
  if (known === null) return opening;
  return (
    <Suspense fallback={opening}>
      <div className="bw-pane-bar">
        <OutingChooser
          plan={plan}
          outing={outing.id}
          onOuting={(id) => goTo({ at: 'manifest', outing: id }, 'replace')}
        />
      </div>
      <RevisionBar atHand={atHand} />
      <ManifestSheet
        plan={plan}
        result={result.result}
        fileName={atHand.name}
        outing={outing.id}
        units={preferences.units}
        host={host}
        person={preferences.person}
        paper={preferences.paper}
        onPaper={(paper) => session.prefer({ paper })}
        dataTime={isoWithOffset(new Date(result.plannedAt))}
        carried={carried ?? undefined}
        map={map ?? undefined}
        known={known}
      />
    </Suspense>
  );
}
