import { useDeferredValue, useMemo, useRef, useState } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import type { Host } from '../../../shared-types/host.ts';
import type { Finding } from '../../../shared-types/judged.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import {
  acceptFinding as acceptOnRecord,
  recordTitle,
  withdrawAcceptance as withdrawOnRecord,
} from '../asrun/recordActs.ts';
import { acceptFinding, withdrawAcceptance } from '../callouts/calloutActs.ts';
import { useStable } from '../catalog/useStable.ts';
import { AcceptDialog } from '../judged/AcceptDialog.tsx';
import { AcceptSeveralDialog } from '../judged/AcceptSeveralDialog.tsx';
import { acceptableAmong } from './acceptableAmong.ts';
import { FindingList } from '../judged/FindingList.tsx';
import { calloutUnit } from '../callouts/preloadData.ts';
import { recordUnit } from '../asrun/recordWords.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { goTo } from '../session/usePlace.ts';
import { useTable } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { useLearning } from '../watchOuts/useLearning.ts';
import { Unread } from '../task/SheetState.tsx';
import { useAct } from '../task/useAct.tsx';
import { cellNamed } from '../../engine/inspection/index.ts';
import { FindingTable } from './FindingTable.tsx';
import { decisionCounts, findingLines, shownFindings } from './openFindings.ts';
import type { FindingView, FoundLine } from './openFindings.ts';
import { TaskReport } from './TaskReport.tsx';
import { useTaskFindings } from './useTaskFindings.ts';
import '../steps/steps.css';
import '../judged/judged.css';
import './findings.css';

export interface FindingsPlaceProps {
  place: Extract<Place, { at: 'findings' }>;
  atHand: TaskAtHand;
  host: Host;
  units: UnitsShown;
  person: string;
  paper: 'A4' | 'Letter';
}

const none: ReadonlySet<string> = new Set();
const plain: FindingView = { text: '', severity: 'all', acceptance: 'all' };
const severities = [
  { value: 'all', label: 'Every severity' },
  { value: 'reject', label: 'Nonconforming' },
  { value: 'query', label: 'Indeterminate' },
  { value: 'unreadable', label: 'Not readable' },
];
const acceptances = [
  { value: 'all', label: 'Open and accepted' },
  { value: 'open', label: 'Open' },
  { value: 'accepted', label: 'Accepted' },
];

/** Everything that was found of the task, worst first: what is open, what somebody accepted, and the report on all of it. */
export function FindingsPlace({ place, atHand, host, units, person, paper }: FindingsPlaceProps) {
  const callouts = useTable('callouts');
  const records = useTable('asRuns');
  const { found, fault, ready } = useTaskFindings(atHand.id);
  const { run, notice } = useAct();
  const learn = useLearning(atHand.task);
  const [view, setView] = useState(plain);
  const [reporting, setReporting] = useState(false);
  const [accepting, setAccepting] = useState<{ finding: Finding; line: FoundLine } | null>(null);
  const [chosen, setChosen] = useState(none);
  const [acceptingSeveral, setAcceptingSeveral] = useState(false);
  const heading = useRef<HTMLHeadingElement>(null);
  const stacked = useMediaQuery('(max-width: 1100px)', false, { getInitialValueInEffect: false });
  const searched = useDeferredValue(view);
  const lines = useMemo(
    () => findingLines(found?.lists ?? [], (key) => callouts.rows.get(key) ?? records.rows.get(key)),
    [found, callouts.rows, records.rows],
  );
  const counts = useMemo(() => decisionCounts(found?.lists ?? []), [found]);
  const shown = useMemo(() => shownFindings(lines, searched), [lines, searched]);
  const inHand = lines.find(({ key }) => key === place.row) ?? shown[0] ?? null;
  const select = useStable((key: string) => goTo({ at: 'findings', row: key }, 'replace'));
  // What is chosen and no longer shown is never accepted with the rest.
  const marked = useMemo(() => shown.filter(({ key }) => chosen.has(key)), [shown, chosen]);
  const acceptable = useMemo(
    () => acceptableAmong(marked, { callouts: callouts.rows, asRuns: records.rows }),
    [marked, callouts.rows, records.rows],
  );
  const openRow = useStable((_key: string) => heading.current?.focus());

  if (fault !== null) return <Unread what="findings" reason={fault} />;
  if (!ready || found === null)
    return (
      <p className="bw-pane-detail" role="status">
        Judging callouts and records…
      </p>
    );
  const open = lines.filter(({ accepted }) => accepted === null).length;
  if (found.lists.length === 0 && found.waiting === 0)
    return (
      <div className="bw-pane-detail">
        <div className="bw-callouts-none">
          <h1>Nothing is judged yet</h1>
          <p>
            What the rules find on callouts and on as-run records comes together here, worst first, with who accepted
            what, and goes into one report.
          </p>
          {found.refused.map(({ name, message }) => (
            <p key={name} role="alert">
              {name} cannot be judged: {message}
            </p>
          ))}
          <p>
            Begin with the <a href={placeAddress({ at: 'callouts' })}>callouts</a> or the{' '}
            <a href={placeAddress({ at: 'asrun' })}>as-run records</a>.
          </p>
        </div>
      </div>
    );
  const kept = inHand === null ? undefined : (inHand.kind === 'as-run' ? records : callouts).rows.get(inHand.row);
  const table = (
    <section key="list" className="bw-pane-list" aria-label="Findings">
      <FindingTable
        lines={shown}
        units={units}
        selected={inHand?.key ?? null}
        onSelect={select}
        onOpen={openRow}
        chosen={chosen}
        onChoose={setChosen}
        empty={
          lines.length === 0 ? (
            <p>No rule found anything: {countOf(counts.conforming, 'row')} conforming.</p>
          ) : (
            <p>No finding is as asked for.</p>
          )
        }
      />
      <footer className="bw-callouts-foot">
        <StateMark state="conforming" text={`${counts.conforming} conforming`} />
        <StateMark state="nonconforming" text={`${counts.nonconforming} nonconforming`} />
        <StateMark state="indeterminate" text={`${counts.indeterminate} indeterminate`} />
        {counts.unreadable === 0 ? null : <StateMark state="unreadable" text={`${counts.unreadable} not readable`} />}
        <span className="bw-callouts-end">
          {marked.length < 2 ? (
            open < 2 ? null : (
              <span className="bw-second">Space, Shift or Ctrl choose several</span>
            )
          ) : (
            <>
              <span role="status" className="bw-second">
                {marked.length} chosen
                {acceptable.length === marked.length ? '' : `, ${acceptable.length} of them to accept`}
              </span>
              <Button disabled={acceptable.length === 0} onClick={() => setAcceptingSeveral(true)}>
                Accept {countOf(acceptable.length, 'finding')}…
              </Button>
            </>
          )}
        </span>
      </footer>
    </section>
  );
  const detail = (
    <div key="detail" className="bw-pane-detail" role="region" aria-label="Finding in hand" tabIndex={0}>
      {notice}
      {found.refused.map(({ name, message }) => (
        <p key={name} role="alert">
          <b>{name}</b> cannot be judged: {message}
        </p>
      ))}
      {inHand === null ? (
        <p className="bw-second">Nothing is open: every row is conforming.</p>
      ) : (
        <article className="bw-callout" aria-labelledby="finding-heading">
          <header className="bw-callout-head">
            <h1 id="finding-heading" ref={heading} tabIndex={-1} className="bw-heading">
              {inHand.kind === 'as-run' ? recordTitle(inHand.cells) : inHand.id}
            </h1>
            <span className="bw-second">
              {inHand.kind === 'steps'
                ? 'step, judged as the callout it is'
                : `${inHand.kind === 'callouts' ? 'callout' : 'record'} of “${inHand.list.name}”`}
            </span>
          </header>
          {inHand.finding === null ? (
            <p>
              <StateMark state="unreadable" /> {inHand.message}
            </p>
          ) : (
            <FindingList
              findings={[inHand.finding]}
              accepted={kept?.accepted ?? []}
              unit={
                inHand.kind === 'as-run' ? recordUnit([cellNamed(inHand.cells, 'final')]) : calloutUnit(inHand.cells)
              }
              units={units}
              {...(kept === undefined
                ? {}
                : {
                    onAccept: (finding: Finding) => setAccepting({ finding, line: inHand }),
                    onWithdraw: (one) =>
                      void run((inHand.kind === 'callouts' ? withdrawAcceptance : withdrawOnRecord)(kept, one)),
                  })}
            />
          )}
          <p>
            <a
              href={placeAddress(
                inHand.kind === 'steps'
                  ? { at: 'steps', step: cellNamed(inHand.cells, 'id') }
                  : inHand.kind === 'callouts'
                    ? { at: 'callouts', list: inHand.list.id, callout: inHand.row }
                    : { at: 'asrun', list: inHand.list.id, record: inHand.row },
              )}
            >
              {inHand.kind === 'steps'
                ? 'Open the step: what reaches it, at which setting'
                : inHand.kind === 'callouts'
                  ? 'Open the callout: drawing, bands and what would conform'
                  : 'Open the record: pattern, series and tool'}
            </a>
          </p>
          <div>
            <Button
              size="xs"
              onClick={() =>
                learn({
                  ...{ in: 'finding', cells: inHand.cells, kind: inHand.kind, message: inHand.finding?.message },
                  ...(inHand.kind === 'as-run' ? { record: inHand.row } : {}),
                })
              }
            >
              Write a watch-out…
            </Button>
          </div>
          {inHand.kind !== 'steps' || inHand.finding === null ? null : (
            <p className="bw-second">
              A step is mended, or its callout accepted: of the step itself no acceptance is kept.
            </p>
          )}
        </article>
      )}
    </div>
  );
  return (
    <div className="bw-callouts">
      <div className="bw-callouts-bar">
        <div className="bw-callouts-line">
          <b className="bw-findings-open">{open === 0 ? 'Nothing open' : `${open} open`}</b>
          <span className="bw-second">
            {countOf(lines.length, 'finding')}, {lines.length - open} accepted
            {found.waiting === 0 ? '' : `; ${countOf(found.waiting, 'list')} still judged`}
          </span>
          <TextInput
            type="search"
            className="bw-findings-search"
            aria-label="Find a finding: row, list, rule or words"
            placeholder="Row, list, rule or words"
            value={view.text}
            onChange={({ currentTarget: { value } }) => setView({ ...view, text: value })}
          />
          <NativeSelect
            aria-label="Severity"
            data={severities}
            value={view.severity}
            onChange={({ currentTarget: { value } }) =>
              setView({ ...view, severity: value as FindingView['severity'] })
            }
          />
          <NativeSelect
            aria-label="Acceptance"
            data={acceptances}
            value={view.acceptance}
            onChange={({ currentTarget: { value } }) =>
              setView({ ...view, acceptance: value as FindingView['acceptance'] })
            }
          />
          <span className="bw-callouts-end">
            <Button variant="filled" disabled={found.lists.length === 0} onClick={() => setReporting(true)}>
              Sign report…
            </Button>
          </span>
        </div>
      </div>
      <div className="bw-split bw-callouts-split">{stacked ? [detail, table] : [table, detail]}</div>
      {accepting === null ? null : (
        <AcceptDialog
          finding={accepting.finding}
          of={`${accepting.line.kind === 'callouts' ? 'callout' : 'record'} ${accepting.line.id}`}
          person={person}
          units={units}
          onAccept={(given) => {
            setAccepting(null);
            const { rule, message } = accepting.finding;
            const { kind, row } = accepting.line;
            const to = (kind === 'callouts' ? callouts : records).rows.get(row);
            const taken = { rule, message, ...given, at: isoWithOffset(new Date()) };
            if (to !== undefined) void run((kind === 'callouts' ? acceptFinding : acceptOnRecord)(to, taken));
          }}
          onClose={() => setAccepting(null)}
        />
      )}
      {acceptingSeveral && acceptable.length > 0 ? (
        <AcceptSeveralDialog
          items={acceptable}
          person={person}
          onAccept={(act) => {
            setAcceptingSeveral(false);
            void run(act).then((done) => (done ? setChosen(none) : undefined));
          }}
          onClose={() => setAcceptingSeveral(false)}
        />
      ) : null}
      {reporting ? (
        <Dialog
          title={`Report on ${atHand.task.code}`}
          onClose={() => setReporting(false)}
          className="bw-findings-report"
        >
          <TaskReport
            lists={found.lists}
            accepted={(key) => callouts.rows.get(key)?.accepted ?? records.rows.get(key)?.accepted ?? []}
            atHand={atHand}
            host={host}
            person={person}
            paper={paper}
          />
        </Dialog>
      ) : null}
    </div>
  );
}
