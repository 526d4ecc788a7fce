import { NativeSelect } from '@mantine/core';
import { useCallback, useMemo, useState } from 'react';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { DocumentToPrint, Host } from '../../../shared-types/host.ts';
import type { StepFacts } from '../../engine/cards/index.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import type { PrintedRevision } from '../manifest/printedRevision.ts';
import { PdfSheet } from '../manifest/PdfSheet.tsx';
import { usePdf } from '../manifest/usePdf.ts';
import type { PrintMeans } from '../manifest/usePdf.ts';
import { countOf } from '../steps/words.ts';
import { cardsAsked, cardsDocument } from './cardsDocument.ts';

export interface CardsSheetProps {
  plan: ResolvedPlan;
  /** The answer to this very state of the task: no other is printed. */
  result: BagResult;
  facts: ReadonlyMap<string, StepFacts>;
  fileName: string;
  outing: string;
  /** Null: of every role. */
  role: string | null;
  onRole: (role: string | null) => void;
  units: UnitsShown;
  host: Host;
  person: string;
  paper: DocumentToPrint['paper'];
  onPaper: (paper: DocumentToPrint['paper']) => void;
  now: () => Date;
  /** The frozen manifest that plan, answer and facts are of; absent for the open plan. */
  frozen?: PrintedRevision | undefined;
  /** What earlier outings say, in sentences. */
  known?: readonly string[] | undefined;
}

const stateCounts = (states: readonly string[], state: string): number => states.filter((one) => one === state).length;

/** The step cards of an outing as the very PDF that is printed and saved. */
export function CardsSheet(props: CardsSheetProps) {
  const {
    plan,
    result,
    facts,
    fileName,
    outing,
    role,
    onRole,
    units,
    host,
    person,
    paper,
    onPaper,
    now,
    frozen,
    known,
  } = props;
  const [clock] = useState(() => now);
  // What the cards say and when it was so: a later look at the same is of the same time.
  const asked = useMemo(
    () => ({
      request: { plan, result, facts, outing, role, units, fileName },
      dataTime: frozen?.at ?? isoWithOffset(clock()),
    }),
    [plan, result, facts, outing, role, units, fileName, frozen, clock],
  );
  const { request, dataTime } = asked;
  const cards = useMemo(() => cardsAsked(request), [request]);
  const document = useCallback(
    (means: PrintMeans) => cardsDocument({ ...request, ...means, dataTime, paper, person, frozen, known }),
    [request, dataTime, paper, person, frozen, known],
  );
  const { pdf, again } = usePdf(host, document);
  const at = plan.outings.find(({ id }) => id === outing);
  const states = [...new Map(cards.flatMap(({ parts }) => parts).map(({ step }) => [step.id, step.state])).values()];
  const notReached = stateCounts(states, 'not-reached');
  const noBag = stateCounts(states, 'no-bag');
  return (
    <PdfSheet
      label="Cards"
      word="cards"
      heading={`Cards${frozen === undefined ? '' : ` of revision ${frozen.number}`}, ${at?.name ?? outing}`}
      mark={
        notReached > 0 ? (
          <StateMark state="not-reached" text={`${notReached} not reached`} />
        ) : noBag > 0 ? (
          <StateMark state="infeasible" text="no bag for this outing" />
        ) : null
      }
      host={host}
      pdf={pdf}
      again={again}
      name={`cards_${plan.source.task?.id ?? fileName.replace(/\.[^.]*$/, '')}_${outing}${role === null ? '' : `_${role}`}${frozen === undefined ? '' : `_revision_${frozen.number}`}_${dataTime.slice(0, 10)}.pdf`}
      pagesLabel="The cards as they will be printed"
      paper={paper}
      onPaper={onPaper}
    >
      <div className="bw-cards-choice">
        <NativeSelect
          label="Role"
          value={role ?? ''}
          data={[{ value: '', label: 'Every role' }, ...(at?.roles ?? []).map((one) => ({ value: one, label: one }))]}
          onChange={({ currentTarget }) => onRole(currentTarget.value === '' ? null : currentTarget.value)}
        />
        <p className="bw-second">
          {cards.length === 0
            ? `${role ?? 'No role'} has no step on this outing.`
            : `${countOf(cards.length, 'card')}, ${countOf(states.length, 'step')}; at most ten lines on each.`}
          {notReached + noBag === 0
            ? ''
            : ' Steps without a stack are printed with what is lacking, and never with a setting.'}
        </p>
      </div>
    </PdfSheet>
  );
}
