import { memo, useMemo, useRef, useState } from 'react';
import { Button } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import { standingOf } from '../../engine/bagMap/standing.ts';
import { figuresBasis } from '../../engine/bag/figuresBasis.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { SourceNote } from '../../components/SourceNote/SourceNote.tsx';
import { ErrorSummary } from '../../components/ErrorSummary/ErrorSummary.tsx';
import type { PastAnswer } from '../../../shared-types/records/window.ts';
import type { KeptResult, TaskAtHand } from '../../store/session.ts';
import { dayAndClockText } from '../../store/clock.ts';
import { placeAddress } from '../../store/place.ts';
import { useAsked } from '../task/useAsked.ts';
import { OutingChooser } from '../session/OutingChooser.tsx';
import { goTo } from '../session/usePlace.ts';
import { useJudgements } from '../steps/judging.ts';
import { NoSteps } from '../steps/NoSteps.tsx';
import { countOf } from '../steps/words.ts';
import { BagMapSection } from '../bagMap/BagMapSection.tsx';
import { useLaying } from '../bagMap/useLaying.tsx';
import { ComparisonSection } from '../bagCompare/ComparisonSection.tsx';
import { PlanFormFields } from '../bagPlan/PlanForm.tsx';
import { HoldsBack } from '../bagReasons/HoldsBack.tsx';
import { JointFaults } from '../bagReasons/JointFaults.tsx';
import { ToleranceCost } from '../bagReasons/ToleranceCost.tsx';
import { useReasons } from '../bagReasons/useReasons.ts';
import { amountText, bagTotals } from './amounts.ts';
import { askedLast } from './asked.ts';
import { bagAsking } from './bagCommands.ts';
import type { Asked } from './asked.ts';
import { BagHeading } from './BagHeading.tsx';
import { BagTable, lineId } from './BagTable.tsx';
import { Infeasible, OtherWays, Problems, UncheckedList } from './Findings.tsx';
import { LimitsTable } from './LimitsTable.tsx';
import { NotYetReadable } from './NotYetReadable.tsx';
import type { PlanningState } from './planning.ts';
import { PlanningPanel } from './PlanningPanel.tsx';
import { ProofPanel } from './ProofPanel.tsx';
import { usePlanForm } from './usePlanForm.ts';
import { WhyHere } from './WhyHere.tsx';
import './bag.css';

export interface BagSheetProps {
  /** Records of it that cannot be read are named: no bag is planned without them. */
  atHand: TaskAtHand;
  /** The answer with its lines as they lie. */
  kept: KeptResult | null;
  /** The same as the planner gave it. */
  planned: KeptResult | null;
  /** The answer to an earlier state of the task, where there is none to this one. */
  former: KeptResult | null;
  /** The last answers, the newest first. */
  past: readonly PastAnswer[];
  planning: PlanningState;
  /** Id of the outing shown; the first where the address names none. */
  outingId: string | undefined;
  /** The line in hand, as `lineId` writes it; the first where the address names none. */
  line: string | undefined;
  units: UnitsShown;
  onPlan: (asked: Asked) => void;
  onCancel: () => void;
  onSave: (format: 'json' | 'csv') => void;
}

export const BagSheet = memo(function BagSheet({
  atHand,
  kept,
  planned,
  former,
  past,
  planning,
  outingId,
  line,
  units,
  onPlan,
  onCancel,
  onSave,
}: BagSheetProps) {
  const { plan, missing } = atHand;
  const form = usePlanForm(askedLast(kept ?? former), atHand.text);
  const [hiddenRefusal, setHiddenRefusal] = useState<unknown>(null);
  const whyHeading = useRef<HTMLHeadingElement>(null);
  const stacked = useMediaQuery('(max-width: 1100px)', false, { getInitialValueInEffect: false });
  const { counts, done } = useJudgements(plan);
  const stackCount = done ? counts.stacks : null;
  const empty = plan.steps.length === 0 && missing.length === 0;
  const hindered = missing.length > 0;
  const outing = plan.outings.find(({ id }) => id === outingId) ?? plan.outings[0];
  const setInHand = (next: string): void =>
    goTo({ at: 'bag', ...(outing === undefined ? {} : { outing: outing.id }), line: next }, 'replace');
  const answer = empty ? null : (kept?.result.outings.find(({ id }) => id === outing?.id) ?? null);
  const totals = useMemo(() => (answer === null ? [] : bagTotals(plan, answer)), [plan, answer]);
  const lines = totals.flatMap(({ items }) => items);
  const item = lines.find(({ bag, id }) => lineId(bag, id) === line) ?? lines[0] ?? null;
  const running = planning.kind === 'running';
  const refusal = planning.kind === 'idle' && planning.refusal !== hiddenRefusal ? planning.refusal : null;
  const showForm = !running && !empty && !hindered && (kept === null || form.isOpen);
  const reasons = useReasons(
    atHand.text,
    running || empty || hindered ? null : planned,
    answer === null || item === null ? null : { outing: answer.id, id: item.id },
  );
  const plannedOuting = empty ? null : (planned?.result.outings.find(({ id }) => id === outing?.id) ?? null);
  const standing = useMemo(() => standingOf(planned?.result ?? {}), [planned]);
  const laying = useLaying(atHand.id, outing?.id);
  useAsked(bagAsking, (wish) => {
    if (wish === 'plan-again') form.open();
    else if (wish === 'compare') document.getElementById('compare-heading')?.focus();
    else if (item !== null) form.toggleWish(item.id, wish, item.quantity);
  });

  const list = (
    <section key="list" className="bw-pane-list" aria-labelledby="bag-heading">
      <div className="bw-pane-bar">
        <h2 id="bag-heading">Bag</h2>
        <OutingChooser
          plan={plan}
          outing={outing?.id ?? ''}
          onOuting={(id) => goTo({ at: 'bag', outing: id }, 'replace')}
        />
        <span className="bw-pane-bar-end">
          {kept === null || running || form.isOpen || empty || hindered ? null : (
            <Button onClick={form.open}>Plan again…</Button>
          )}
        </span>
      </div>
      {showForm ? (
        <PlanFormFields
          plan={plan}
          draft={form.draft}
          onDraft={form.setDraft}
          again={kept !== null || former !== null}
          onPlan={(next) => {
            form.close();
            onPlan(next);
          }}
          onLeave={kept === null ? null : form.close}
        />
      ) : null}
      {running ? <PlanningPanel plan={plan} running={planning} units={units} onCancel={onCancel} /> : null}
      {answer === null ? (
        <p className="bw-bag-open bw-second">
          {empty
            ? 'The contents appear here once the task has steps.'
            : hindered
              ? 'The contents appear here once every step can be read and the bag is planned.'
              : emptyText(kept, running, planning)}
        </p>
      ) : (
        <>
          <BagTable
            plan={plan}
            outing={answer}
            units={units}
            selected={item === null ? null : lineId(item.bag, item.id)}
            onSelect={setInHand}
            onOpen={() => whyHeading.current?.focus()}
          />
          <div className="bw-bag-sum">
            <span>{countOf(totals.length, 'bag')}</span>
            <span>
              {amountText(
                lines.reduce((sum, { quantity }) => sum + quantity, 0),
                'pieces',
                units,
              )}
            </span>
            <span>{amountText(answer.massKg, 'kg', units)} with the bags</span>
          </div>
        </>
      )}
    </section>
  );

  const detail = (
    <div key="detail" className="bw-pane-detail" role="region" aria-label="Bag in hand" tabIndex={0}>
      <div className="bw-bag">
        {refusal === null ? null : (
          <ErrorSummary
            name="The bag"
            verb="was not planned"
            refusal={refusal}
            remains={kept === null ? 'The plan stays open.' : 'The last result stays below.'}
            onClose={() => setHiddenRefusal(planning.kind === 'idle' ? planning.refusal : null)}
          />
        )}
        {hindered ? <NotYetReadable missing={missing} /> : null}
        {empty ? (
          <NoSteps />
        ) : kept === null && former !== null ? (
          <>
            <h1>The bag is to be planned again</h1>
            <p>
              The task or its stock has been changed since its bag was planned on {plannedText(former)}. That answer is
              not one to this task any more, so it is not shown as its bag.
            </p>
            <ComparisonSection task={atHand.id} past={past} planHash={atHand.planHash} units={units} />
          </>
        ) : kept === null ? (
          <>
            <h1>{running ? 'The bag is being planned' : 'No bag planned yet'}</h1>
            <p>
              Planning finds, from the stock of this task, the set that does every step of every outing within the
              limits of the bags, and proves that none is less.
            </p>
          </>
        ) : (
          <>
            <BagHeading kept={kept} units={units} />
            <Problems plan={plan} problems={kept.result.problems} />
            <OtherWays plan={plan} outings={kept.result.outings} />
            <Infeasible plan={plan} result={kept.result} units={units} />
            {kept.result.status === 'infeasible' ? <JointFaults plan={plan} reasons={reasons} units={units} /> : null}
            {answer === null || item === null ? null : (
              <WhyHere
                plan={plan}
                outing={answer}
                item={item}
                reasons={reasons}
                units={units}
                headingRef={whyHeading}
                wished={form.wishedOf(item.id)}
                onWish={running ? null : (kind) => form.toggleWish(item.id, kind, item.quantity)}
              />
            )}
            {plannedOuting === null ? null : (
              <>
                <BagMapSection
                  plan={plan}
                  planned={plannedOuting}
                  standing={standing}
                  lines={laying.lines}
                  selected={item === null ? null : { item: item.id, bag: item.bag }}
                  onSelect={(id, bag) => setInHand(lineId(bag, id))}
                  onLines={laying.lay}
                  units={units}
                />
                {laying.notice}
              </>
            )}
            {kept.result.outings.length === 0 ? null : (
              <div className="bw-pane-bar-end">
                {answer === null ? null : (
                  <Button
                    component="a"
                    variant={showForm ? 'default' : 'filled'}
                    href={placeAddress({ at: 'manifest', outing: answer.id })}
                  >
                    Preview manifest
                  </Button>
                )}
                <Button onClick={() => onSave('json')}>Save result as JSON…</Button>
                <Button onClick={() => onSave('csv')}>Save lines as CSV…</Button>
                <Button onClick={() => document.getElementById('compare-heading')?.focus()}>
                  Compare with another bag
                </Button>
              </div>
            )}
            <div className="bw-bag-two">
              {kept.result.objective === null ? null : (
                <ProofPanel plan={plan} kept={kept} stackCount={stackCount} units={units} />
              )}
              <div className="bw-bag-price">
                <ToleranceCost plan={plan} reasons={reasons} units={units} />
                <HoldsBack plan={plan} reasons={reasons} units={units} />
              </div>
            </div>
            {totals.length === 0 ? null : <LimitsTable plan={plan} totals={totals} units={units} />}
            <ComparisonSection task={atHand.id} past={past} planHash={atHand.planHash} units={units} />
            <UncheckedList plan={plan} result={kept.result} />
            <section aria-labelledby="basis-heading">
              <h3 id="basis-heading">What the figures rest on</h3>
              <SourceNote>{figuresBasis(plan).join(' ')}</SourceNote>
            </section>
          </>
        )}
      </div>
    </div>
  );
  return <div className="bw-split">{stacked ? [detail, list] : [list, detail]}</div>;
});

const plannedText = ({ plannedAt }: KeptResult): string => dayAndClockText(new Date(plannedAt));

function emptyText(kept: KeptResult | null, running: boolean, planning: PlanningState): string {
  if (running) return 'The contents appear here when the search ends.';
  if (kept !== null) return 'There is no bag for this outing; the reasons stand beside.';
  return planning.kind === 'idle' && planning.cancelled
    ? 'Planning was cancelled. Nothing was changed.'
    : 'The contents appear here once the bag is planned.';
}
