import { memo, useMemo, useRef, useState } from 'react';
import { Button } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import { figuresBasis } from '../../engine/bag/figuresBasis.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { BagDrawing } from '../../components/BagDrawing/BagDrawing.tsx';
import { SourceNote } from '../../components/SourceNote/SourceNote.tsx';
import { ErrorSummary } from '../../components/ErrorSummary/ErrorSummary.tsx';
import type { Missing } from '../../engine/records/readableTask.ts';
import type { KeptResult } from '../../store/session.ts';
import { dayAndClockText } from '../../store/clock.ts';
import { placeAddress } from '../../store/place.ts';
import { OutingChooser } from '../session/OutingChooser.tsx';
import { goTo } from '../session/usePlace.ts';
import { useJudgements } from '../steps/judging.ts';
import { NoSteps } from '../steps/NoSteps.tsx';
import { countOf } from '../steps/words.ts';
import { amountText, bagTotals } from './amounts.ts';
import { BagHeading } from './BagHeading.tsx';
import { BagTable, lineId } from './BagTable.tsx';
import { Infeasible, Problems, UncheckedList } from './Findings.tsx';
import { LimitsTable } from './LimitsTable.tsx';
import { PlanFormFields } from './PlanForm.tsx';
import type { Asked, PlanningState } from './planning.ts';
import { PlanningPanel } from './PlanningPanel.tsx';
import { ProofPanel } from './ProofPanel.tsx';
import { WhyHere } from './WhyHere.tsx';
import './bag.css';

export interface BagSheetProps {
  plan: ResolvedPlan;
  /** Records of the task that cannot be read: no bag is planned without them. */
  missing: readonly Missing[];
  kept: KeptResult | null;
  /** The answer to an earlier state of the task, where there is none to this one. */
  former: KeptResult | null;
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
  plan,
  missing,
  kept,
  former,
  planning,
  outingId,
  line,
  units,
  onPlan,
  onCancel,
  onSave,
}: BagSheetProps) {
  const [formOpen, setFormOpen] = useState(false);
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
  const asked: Asked = {
    minimised: (kept ?? former)?.minimised ?? 'mass',
    timeLimitS: (kept ?? former)?.timeLimitS ?? null,
  };
  const showForm = !running && !empty && !hindered && (kept === null || formOpen);

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
          {kept === null || running || formOpen || empty || hindered ? null : (
            <Button onClick={() => setFormOpen(true)}>Plan again…</Button>
          )}
        </span>
      </div>
      {showForm ? (
        <PlanFormFields
          first={asked}
          again={kept !== null || former !== null}
          onPlan={(next) => {
            setFormOpen(false);
            onPlan(next);
          }}
          onLeave={kept === null ? null : () => setFormOpen(false)}
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
          </>
        ) : kept === null ? (
          <>
            <h1>No bag planned yet</h1>
            <p>
              Planning finds, from the stock of this task, the set that does every step of every outing within the
              limits of the bags, and proves that none is less.
            </p>
          </>
        ) : (
          <>
            <BagHeading kept={kept} units={units} />
            <Problems plan={plan} problems={kept.result.problems} />
            <Infeasible plan={plan} result={kept.result} units={units} />
            {answer === null ? null : (
              <BagDrawing
                plan={plan}
                outing={answer}
                selected={item?.id ?? null}
                onSelect={(id, bag) => setInHand(lineId(bag, id))}
                units={units}
              />
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
              </div>
            )}
            <div className="bw-bag-two">
              {kept.result.objective === null ? null : (
                <ProofPanel plan={plan} kept={kept} stackCount={stackCount} units={units} />
              )}
              {answer === null || item === null ? null : (
                <WhyHere plan={plan} outing={answer} item={item} units={units} headingRef={whyHeading} />
              )}
            </div>
            {totals.length === 0 ? null : <LimitsTable plan={plan} totals={totals} units={units} />}
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

const listedMost = 20;

/** Why no bag is planned: a bag without the steps that cannot be read would look whole and be short. */
function NotYetReadable({ missing }: { missing: readonly Missing[] }) {
  return (
    <section aria-labelledby="not-yet-readable">
      <h2 id="not-yet-readable">{countOf(missing.length, 'record')} of this task cannot be read yet</h2>
      <p>No bag is planned before they can: it would be short of what they need.</p>
      <ul className="bw-lines">
        {missing.slice(0, listedMost).map(({ table, code, reason }, index) => (
          <li key={index}>
            {table === 'steps' ? (
              <a href={placeAddress({ at: 'steps', step: code })}>Step {code}</a>
            ) : table === 'items' ? (
              <a href={placeAddress({ at: 'catalog' })}>{code}</a>
            ) : (
              <span>{code}</span>
            )}
            <span>{reason}</span>
          </li>
        ))}
      </ul>
      {missing.length > listedMost ? <p className="bw-second">and {missing.length - listedMost} more</p> : null}
    </section>
  );
}

const plannedText = ({ plannedAt }: KeptResult): string => dayAndClockText(new Date(plannedAt));

function emptyText(kept: KeptResult | null, running: boolean, planning: PlanningState): string {
  if (running) return 'The contents appear here when the search ends.';
  if (kept !== null) return 'There is no bag for this outing; the reasons stand beside.';
  return planning.kind === 'idle' && planning.cancelled
    ? 'Planning was cancelled. Nothing was changed.'
    : 'The contents appear here once the bag is planned.';
}
