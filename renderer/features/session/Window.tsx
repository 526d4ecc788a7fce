import { Suspense, lazy, useCallback, useEffect, useRef, useState, useSyncExternalStore } from 'react';
import type { Host, HostInfo } from '../../../shared-types/host.ts';
import { ErrorSummary } from '../../components/ErrorSummary/ErrorSummary.tsx';
import { JobLine } from '../../components/JobLine/JobLine.tsx';
import { Masthead } from '../../components/Masthead/Masthead.tsx';
import { TitleStrip } from '../../components/TitleStrip/TitleStrip.tsx';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { guardPage } from '../../host/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { Place, PlaceName } from '../../store/place.ts';
import type { Planning } from '../bag/planning.ts';
import { KeptRecordJudging } from '../asrun/KeptRecordJudging.tsx';
import { useRecordPlaces } from '../asrun/recordsWord.tsx';
import { benchSheet } from '../bench/sheets/index.ts';
import { useCalloutsPlace } from '../callouts/calloutsWord.tsx';
import { KeptJudging } from '../callouts/KeptJudging.tsx';
import { tableCount, tableFindings } from '../handbook/tableFindings.ts';
import { ImportDialog } from '../import/ImportDialog.tsx';
import { KeysSheet } from '../keys/KeysSheet.tsx';
import { commandFindings, planFindings } from '../palette/findings.ts';
import { Palette } from '../palette/Palette.tsx';
import { useCommandKeys } from '../palette/useCommandKeys.ts';
import { ElsewhereBanner } from '../recovery/ElsewhereBanner.tsx';
import { OpeningNotice } from '../recovery/OpeningNotice.tsx';
import { revisionText } from '../revisions/revisionWords.ts';
import { useRevisions } from '../revisions/useRevisions.ts';
import { SettingsSheet } from '../settings/SettingsSheet.tsx';
import { useJudgements } from '../steps/judging.ts';
import { countOf } from '../steps/words.ts';
import { BringRecordIn } from '../record/BringRecordIn.tsx';
import { isRecordFile } from '../record/bringIn.ts';
import { isEverything } from '../../engine/everything/isEverything.ts';
import { useReturnPlaces } from '../record/useReturnPlaces.tsx';
import { jobPlaces } from './jobPlaces.tsx';
import { keepFocus } from './keepFocus.ts';
import { savingWords } from './saving.ts';
import { usePackPlace } from '../pack/usePackPlace.tsx';
import { useSession, useSessionState } from './SessionContext.ts';
import { Sheet } from './Sheet.tsx';
import { TaskMenu } from './TaskMenu.tsx';
import { useCommands } from './useCommands.ts';
import type { OverSheet } from './useCommands.ts';
import { useDeeds } from './useDeeds.ts';
import type { FileAtTheDoor } from './useDeeds.ts';
import { goTo, usePlace } from './usePlace.ts';
import { useHistoryState, useSaveState, useStore, useTable } from './useStore.ts';
import './shell.css';

// A file with everything is brought in once in a while.
const EverythingDialog = lazy(async () => ({
  default: (await import('../snapshots/EverythingDialog.tsx')).EverythingDialog,
}));

const sheetNames: Record<PlaceName, string> = {
  first: 'First page',
  front: 'Front sheet',
  steps: 'Steps',
  outings: 'Outings',
  bag: 'Bag',
  manifest: 'Manifest',
  cards: 'Cards',
  return: 'Return',
  record: 'Record',
  discrepancies: 'Discrepancies',
  pack: 'Pack',
  revisions: 'Frozen manifests',
  frozen: 'Frozen manifest',
  callouts: 'Callouts',
  asrun: 'As-run',
  findings: 'Findings',
  catalog: 'Catalog',
  sites: 'Sites',
  watchouts: 'Watch-outs',
  labels: 'Labels',
  snapshots: 'Snapshots',
  kits: 'Kits compared',
  handbook: 'Handbook',
  bench: 'Bench',
};
const ofTask: ReadonlySet<PlaceName> = new Set([
  'front',
  'steps',
  'outings',
  'bag',
  'manifest',
  'cards',
  'return',
  'record',
  'pack',
  'revisions',
  'frozen',
  'callouts',
  'asrun',
  'findings',
]);
/** Places whose panes scroll by themselves. */
const split: ReadonlySet<PlaceName> = new Set([
  'pack',
  'steps',
  'outings',
  'bag',
  'revisions',
  'callouts',
  'asrun',
  'findings',
  'catalog',
  'sites',
  'watchouts',
  'labels',
  'handbook',
  'bench',
]);

/** Counting in needs the whole window: Leave is its way out. */
function isAlone(place: Place): boolean {
  return place.at === 'pack' || (place.at === 'return' && place.sheet === undefined);
}

/** The outing chosen where the hand is; the bag's sheet begins with the first. */
function outingAtHand(plan: ResolvedPlan, place: Place): string | undefined {
  const asked = 'outing' in place ? place.outing : undefined;
  const known = plan.outings.find(({ id }) => id === asked) ?? (place.at === 'bag' ? plan.outings[0] : undefined);
  return known?.id;
}

export interface WindowProps {
  host: Host;
  /** Null while the program has not answered. */
  info: HostInfo | null;
  planning: Planning;
  now: () => Date;
}

export function Window({ host, info, planning, now }: WindowProps) {
  const store = useStore();
  const session = useSession();
  const { preferences, atHand, reading, result, former, refused } = useSessionState();
  const saveState = useSaveState();
  const history = useHistoryState();
  const planningState = useSyncExternalStore(planning.subscribe, planning.state);
  const asked = usePlace();
  // Without a task the sheets of one have nothing to show; while it is being read the address stays.
  const place: Place = atHand === null && !reading && ofTask.has(asked.at) ? { at: 'first' } : asked;
  const [over, setOver] = useState<OverSheet | null>(null);
  const [atTheDoor, setAtTheDoor] = useState<FileAtTheDoor | null>(null);
  const main = useRef<HTMLElement>(null);
  const deeds = useDeeds({ store, session, planning, host, atTheDoor: setAtTheDoor });
  const plan = atHand?.plan ?? null;
  const { judgements, counts } = useJudgements(plan);
  const calloutsPlace = useCalloutsPlace(atHand?.id ?? null, place.at === 'callouts');
  const recordPlaces = useRecordPlaces(atHand?.id ?? null, place.at);
  const outing = plan === null ? undefined : outingAtHand(plan, place);
  const packPlace = usePackPlace(atHand?.id ?? null, outing);
  const returnPlaces = useReturnPlaces(atHand?.id ?? null, place.at);
  const { rows: revisions } = useRevisions(atHand?.id ?? '');
  const units = preferences.units;
  // Kept read, so that a task saved as a file has what was learned with it.
  useTable('watchOuts');
  const missing = atHand?.missing ?? [];
  const inTask = ofTask.has(place.at);

  useEffect(() => guardPage({ onFilesDropped: deeds.bringDroppedIn }), [deeds]);
  useEffect(() => keepFocus(), []);

  const title = [sheetNames[place.at], ...(inTask && atHand !== null ? [atHand.task.name] : []), 'Bagwright'].join(
    ' · ',
  );
  useEffect(() => void (document.title = title), [title]);
  const before = useRef(place.at);
  useEffect(() => {
    if (before.current === place.at) return;
    before.current = place.at;
    main.current?.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }, [place.at]);

  const commands = useCommands({
    around: { session, planning, deeds, place, open: setOver, saveAgain: store.saveAgain },
    plan,
    now: {
      hasTask: plan !== null,
      notPlannable:
        missing.length > 0
          ? `${countOf(missing.length, 'record')} of it cannot be read yet`
          : plan?.steps.length === 0
            ? 'the task has no steps yet'
            : null,
      undo: history.undo?.title ?? null,
      redo: history.redo?.title ?? null,
      hasResult: result !== null,
      planning: planningState.kind === 'running',
      notSaved: saveState.kind === 'not-saved',
    },
  });
  useCommandKeys(commands, { singleKeys: preferences.singleKeys });

  const close = (): void => setOver(null);
  const held = result?.result ?? null;
  const findMore = useCallback(
    () => [
      ...(plan === null ? [] : planFindings(plan, { judgements, result: held, go: goTo })),
      ...tableFindings(goTo),
    ],
    [plan, judgements, held],
  );
  const workPlace: Place = inTask || place.at === 'first' ? place : atHand === null ? { at: 'first' } : { at: 'front' };

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
      {isAlone(place) ? null : (
        <Masthead
          halls={[
            { name: 'Work', address: placeAddress(workPlace), current: inTask || place.at === 'first' },
            { name: 'Catalog', address: placeAddress({ at: 'catalog' }), current: place.at === 'catalog' },
            { name: 'Sites', address: placeAddress({ at: 'sites' }), current: place.at === 'sites' },
            { name: 'Handbook', address: placeAddress({ at: 'handbook' }), current: place.at === 'handbook' },
            { name: 'Bench', address: placeAddress({ at: 'bench' }), current: place.at === 'bench' },
          ]}
          homeAddress={placeAddress({ at: 'first' })}
          onFind={() => setOver('palette')}
          onKeys={() => setOver('keys')}
          onSettings={() => setOver('settings')}
        />
      )}
      {plan === null ||
      atHand === null ||
      isAlone(place) ||
      !(inTask || place.at === 'first' || place.at === 'discrepancies') ? null : (
        <JobLine
          task={<TaskMenu atHand={atHand} deeds={deeds} />}
          places={[
            ...jobPlaces({
              plan,
              missing,
              counts,
              kept: result,
              former: former !== null,
              planning: planningState.kind === 'running',
              at: place.at,
              outing,
            }),
            packPlace,
            ...returnPlaces,
          ]}
          inspection={[calloutsPlace, ...recordPlaces]}
        />
      )}
      {atHand === null ? null : <KeptJudging task={atHand.id} />}
      {atHand === null ? null : <KeptRecordJudging task={atHand.id} />}
      <main ref={main} tabIndex={-1} className="bw-main" data-split={split.has(place.at) || undefined}>
        <OpeningNotice />
        {saveState.kind === 'elsewhere' ? <ElsewhereBanner store={store} reason={saveState.reason} /> : null}
        {refused === null ? null : (
          <ErrorSummary
            name={refused.name}
            verb="was not done"
            refusal={refused.refusal}
            remains="What is kept stays as it was."
            onClose={session.dismissRefusal}
          />
        )}
        <Sheet
          place={place}
          host={host}
          info={info}
          deeds={deeds}
          planning={planning}
          planningState={planningState}
          now={now}
        />
      </main>
      <TitleStrip
        task={atHand === null ? 'none open' : atHand.task.code}
        sheet={place.at === 'bench' ? `Bench: ${benchSheet(place.sheet).name}` : sheetNames[place.at]}
        revision={atHand === null ? null : revisionText(revisions, place)}
        person={preferences.person === '' ? 'not named yet' : preferences.person}
        units={units}
        onUnits={(next) => session.prefer({ units: next })}
        saving={savingWords(saveState)}
        onSaveAgain={store.saveAgain}
      />
      {atTheDoor === null ? null : isRecordFile(atTheDoor.text) ? (
        <BringRecordIn host={host} now={now} file={atTheDoor} onClose={() => setAtTheDoor(null)} />
      ) : isEverything(atTheDoor.text) ? (
        <Suspense fallback={null}>
          <EverythingDialog host={host.snapshots} file={atTheDoor} onClose={() => setAtTheDoor(null)} />
        </Suspense>
      ) : (
        <ImportDialog file={atTheDoor} onOpenTask={deeds.openTask} onClose={() => setAtTheDoor(null)} />
      )}
      {over === 'palette' ? (
        <Palette
          commands={commandFindings(commands)}
          rest={{ count: tableCount + (plan === null ? 0 : plan.steps.length + plan.carried.size), list: findMore }}
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
