import { Suspense, lazy, useCallback, useEffect, useRef, useState, useSyncExternalStore } from 'react';
import type { ReactNode } from 'react';
import type { Host, HostInfo } from '../../../shared-types/host.ts';
import { ErrorSummary } from '../../components/ErrorSummary/ErrorSummary.tsx';
import { JobLine } from '../../components/JobLine/JobLine.tsx';
import { Masthead } from '../../components/Masthead/Masthead.tsx';
import { TitleStrip } from '../../components/TitleStrip/TitleStrip.tsx';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { guardPage } from '../../host/index.ts';
import { dayAndClockText } from '../../store/clock.ts';
import { placeAddress } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';
import { BagSheet } from '../bag/BagSheet.tsx';
import type { Planning } from '../bag/planning.ts';
import { demoPlans } from '../first-page/demoPlans.ts';
import { FirstPage } from '../first-page/FirstPage.tsx';
import { KeysSheet } from '../keys/KeysSheet.tsx';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { commandFindings, planFindings } from '../palette/findings.ts';
import { Palette } from '../palette/Palette.tsx';
import { useCommandKeys } from '../palette/useCommandKeys.ts';
import { SettingsSheet } from '../settings/SettingsSheet.tsx';
import { useJudgements } from '../steps/judging.ts';
import { NoSteps } from '../steps/NoSteps.tsx';
import { StepsSheet } from '../steps/StepsSheet.tsx';
import { jobPlaces } from './jobPlaces.tsx';
import { OutingChooser } from './OutingChooser.tsx';
import { savingWords } from './saving.ts';
import { useSaving, useSession, useSessionState } from './SessionContext.ts';
import { TaskMenu } from './TaskMenu.tsx';
import { useCommands } from './useCommands.ts';
import type { OverSheet } from './useCommands.ts';
import { useDeeds } from './useDeeds.ts';
import { goTo, usePlace } from './usePlace.ts';
import './shell.css';

// The manifest brings a reader of PDFs with it, which nothing else needs.
const ManifestSheet = lazy(async () => ({ default: (await import('../manifest/ManifestSheet.tsx')).ManifestSheet }));

const nowhere: Place = { at: 'first' };
const sheetNames = { first: 'First page', steps: 'Steps', bag: 'Bag', manifest: 'Manifest' } as const;

/** The outing chosen where the hand is; the bag's sheet begins with the first. */
function outingAtHand(plan: ResolvedPlan, place: Place): string | undefined {
  const asked = place.at === 'bag' || place.at === 'manifest' ? place.outing : undefined;
  const known = plan.outings.find(({ id }) => id === asked) ?? (place.at === 'bag' ? plan.outings[0] : undefined);
  return known?.id;
}

function useHostInfo(host: Host): HostInfo | null {
  const [info, setInfo] = useState<HostInfo | null>(null);
  useEffect(() => {
    let wanted = true;
    host.info().then(
      (answer) => wanted && setInfo(answer),
      // Without an answer the folder stays unnamed, and the window says so where it would stand.
      () => undefined,
    );
    return () => void (wanted = false);
  }, [host]);
  return info;
}

export function Window({ host, planning }: { host: Host; planning: Planning }) {
  const session = useSession();
  const { preferences, atHand, result, refused } = useSessionState();
  const saving = useSaving();
  const planningState = useSyncExternalStore(planning.subscribe, planning.state);
  const asked = usePlace();
  const place = atHand === null ? nowhere : asked;
  const [over, setOver] = useState<OverSheet | null>(null);
  const main = useRef<HTMLElement>(null);
  const info = useHostInfo(host);
  const deeds = useDeeds(session, planning, host);
  const { judgements, counts } = useJudgements(atHand?.plan ?? null);
  const plan = atHand?.plan ?? null;
  const units = preferences.units;

  useEffect(() => guardPage({ onFilesDropped: deeds.openDropped }), [deeds]);

  const title =
    plan === null ? 'Bagwright' : `${sheetNames[place.at]} · ${plan.source.task?.name ?? atHand?.name} · Bagwright`;
  useEffect(() => void (document.title = title), [title]);
  const before = useRef(place.at);
  useEffect(() => {
    if (before.current === place.at) return;
    before.current = place.at;
    main.current?.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }, [place.at]);

  const commands = useCommands({
    around: { session, planning, deeds, place, open: setOver, saveAgain: saving.retry },
    plan,
    now: {
      hasPlan: plan !== null,
      hasResult: result !== null,
      planning: planningState.kind === 'running',
      notSaved: saving.state.kind === 'not-saved',
    },
  });
  useCommandKeys(commands, { singleKeys: preferences.singleKeys });

  const close = (): void => setOver(null);
  const held = result?.result ?? null;
  const findInPlan = useCallback(
    () => (plan === null ? [] : planFindings(plan, { judgements, result: held, go: goTo })),
    [plan, judgements, held],
  );
  const demoOpeners = demoPlans.map((demo) => ({ id: demo.id, name: demo.name, open: () => deeds.openDemo(demo) }));

  const sheet = (): ReactNode => {
    if (plan === null || atHand === null || place.at === 'first')
      return (
        <FirstPage
          atHand={
            atHand === null
              ? null
              : {
                  name: atHand.plan.source.task?.name ?? atHand.name,
                  opened: dayAndClockText(new Date(atHand.openedAt)),
                }
          }
          demos={demoPlans}
          onOpenFile={deeds.openFile}
          onOpenDemo={deeds.openDemo}
          onSaveDemo={deeds.saveDemo}
          person={preferences.person}
          onPerson={(person) => session.prefer({ person })}
          dataFolder={info?.dataFolder ?? null}
        />
      );
    if (place.at === 'steps')
      return <StepsSheet plan={plan} stepId={place.step} result={result?.result ?? null} units={units} />;
    if (place.at === 'bag')
      return (
        <BagSheet
          plan={plan}
          kept={result}
          planning={planningState}
          outingId={place.outing}
          line={place.line}
          units={units}
          onPlan={planning.start}
          onCancel={planning.cancel}
          onSave={deeds.saveResult}
        />
      );
    if (plan.steps.length === 0)
      return (
        <div className="bw-pane-detail">
          <NoSteps />
        </div>
      );
    const outing = plan.outings.find(({ id }) => id === place.outing) ?? result?.result.outings[0] ?? plan.outings[0];
    if (result === null || outing === undefined)
      return (
        <div className="bw-pane-detail">
          <h1>No manifest yet</h1>
          <p>
            The manifest lists a planned bag. <a href={placeAddress({ at: 'bag' })}>Plan the bag</a> first.
          </p>
        </div>
      );
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the manifest…</p>}>
        <div className="bw-pane-bar">
          <OutingChooser
            plan={plan}
            outing={outing.id}
            onOuting={(id) => goTo({ at: 'manifest', outing: id }, 'replace')}
          />
        </div>
        <ManifestSheet
          plan={plan}
          result={result.result}
          fileName={atHand.name}
          outing={outing.id}
          units={units}
          host={host}
          person={preferences.person}
          paper={preferences.paper}
          onPaper={(paper) => session.prefer({ paper })}
          dataTime={isoWithOffset(new Date(result.plannedAt))}
        />
      </Suspense>
    );
  };

  return (
    <div className="bw-window">
      <a
        className="bw-skip"
        href={placeAddress(place)}
        onClick={(event) => {
          event.preventDefault();
          main.current?.focus();
        }}
      >
        To the sheet
      </a>
      <Masthead
        halls={[{ name: 'Work', address: placeAddress(place), current: true }]}
        homeAddress={placeAddress({ at: 'first' })}
        onFind={() => setOver('palette')}
        onKeys={() => setOver('keys')}
        onSettings={() => setOver('settings')}
      />
      {plan === null || atHand === null ? null : (
        <JobLine
          task={
            <TaskMenu
              plan={plan}
              fileName={atHand.name}
              demos={demoOpeners}
              onOpenFile={deeds.openFile}
              onFirstPage={() => goTo({ at: 'first' })}
              onClosePlan={deeds.closePlan}
            />
          }
          places={jobPlaces({
            plan,
            counts,
            kept: result,
            planning: planningState.kind === 'running',
            at: place.at,
            outing: outingAtHand(plan, place),
          })}
        />
      )}
      <main
        ref={main}
        tabIndex={-1}
        className="bw-main"
        data-split={place.at === 'steps' || place.at === 'bag' || undefined}
      >
        {saving.state.kind !== 'elsewhere' ? null : (
          <p className="bw-elsewhere" role="status">
            <b>Open in another window: this one does not save.</b> To save here, close the other window and load this
            page again; it then shows what the other one saved.
          </p>
        )}
        {refused === null ? null : (
          <ErrorSummary
            name={refused.name}
            refusal={refused.refusal}
            remains={atHand === null ? 'Nothing was changed.' : `${atHand.name} stays open as it was.`}
            onClose={session.dismissRefusal}
          />
        )}
        {sheet()}
      </main>
      <TitleStrip
        task={atHand === null ? 'none open' : (plan?.source.task?.id ?? atHand.name)}
        sheet={sheetNames[place.at]}
        person={preferences.person === '' ? 'not named yet' : preferences.person}
        units={units}
        onUnits={(next) => session.prefer({ units: next })}
        saving={savingWords(saving.state)}
        onSaveAgain={saving.retry}
      />
      {over === 'palette' ? (
        <Palette
          commands={commandFindings(commands)}
          rest={{ count: plan === null ? 0 : plan.steps.length + plan.carried.size, list: findInPlan }}
          onClose={close}
        />
      ) : null}
      {over === 'keys' ? <KeysSheet commands={commands} singleKeys={preferences.singleKeys} onClose={close} /> : null}
      {over === 'settings' ? (
        <SettingsSheet
          preferences={preferences}
          onPrefer={session.prefer}
          dataFolder={info?.dataFolder ?? null}
          version={info?.version ?? null}
          onClose={close}
        />
      ) : null}
    </div>
  );
}
