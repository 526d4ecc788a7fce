import { Button } from '@mantine/core';
import type { OrderProposal, OutingCourse, SwapProposal } from '../../../shared-types/outing.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import { countOf } from '../steps/words.ts';
import { courseProblemText } from './courseWords.ts';
import { StepLink } from './StepLink.tsx';

export interface ProposalsProps {
  course: OutingCourse;
  plan: ResolvedPlan;
  /** Whether any step of the outing leaves its place open. */
  room: boolean;
  stepWords: (code: string) => { number: number; name: string };
  stepCalled: (code: string) => string;
  onOrder: (order: OrderProposal) => void;
  onSwap: (swap: SwapProposal) => void;
}

type Figure = readonly [what: string, before: string | number, after: string | number];

/** Figures before and after, side by side. */
function BeforeAfter({ caption, figures }: { caption: string; figures: readonly Figure[] }) {
  return (
    <table className="bw-task-table">
      <caption className="bw-hidden">{caption}</caption>
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col" className="bw-end">
            As it is
          </th>
          <th scope="col" className="bw-end">
            As proposed
          </th>
        </tr>
      </thead>
      <tbody>
        {figures.map(([what, before, after]) => (
          <tr key={what}>
            <th scope="row">{what}</th>
            <td className="bw-end">{before}</td>
            <td className="bw-end">{after}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const aims = {
  'tool-changes': 'An order with fewer stack changes',
  'loose-pieces': 'An order with fewer loose pieces at once',
} as const;

/** Orders and roles that might serve better. Nothing is done by itself. */
export function Proposals({ course, plan, room, stepWords, stepCalled, onOrder, onSwap }: ProposalsProps) {
  const { orders, swaps } = course;
  return (
    <section className="bw-course-part" aria-labelledby="outing-proposals">
      <h2 id="outing-proposals" tabIndex={-1} className="bw-heading bw-course-proposals">
        Proposals
      </h2>
      {orders.length > 0 ? null : (
        <p className="bw-small">
          {room
            ? 'No order that the steps leave room for has fewer stack changes or fewer loose pieces.'
            : 'Every step keeps its place: no other order is looked for. A step that says what it comes after leaves room.'}
        </p>
      )}
      {orders.map((order) => (
        <article key={order.aim} className="bw-course-proposal" aria-label={aims[order.aim]}>
          <h3>{aims[order.aim]}</h3>
          <BeforeAfter
            caption={`${aims[order.aim]}: figures`}
            figures={[
              ['Stack changes', order.before.toolChanges, order.after.toolChanges],
              ['Loose pieces at once, most', order.before.loosePeak, order.after.loosePeak],
              ['Minutes out', showNumber(order.before.endMin), showNumber(order.after.endMin)],
            ]}
          />
          <p className="bw-small">
            Steps in this order:{' '}
            {order.order.map((code) => `${stepWords(code).number} ${stepWords(code).name}`).join(' · ')}
          </p>
          <p className="bw-second bw-small">
            {order.how === 'exact'
              ? 'Every order that the steps leave room for was looked at: none is better in this.'
              : 'Found by search: there may be a better one.'}{' '}
            Stacks as the bag was planned.
          </p>
          <Button onClick={() => onOrder(order)}>Take this order</Button>
        </article>
      ))}
      {swaps.length > 0 ? null : (
        <p className="bw-small">No step given to another role makes the outing shorter or its loads more even.</p>
      )}
      {swaps.map((swap) => {
        const title = swap.changes
          .map(({ step, from, to }) => `${stepWords(step).number} ${stepWords(step).name} by ${to} in place of ${from}`)
          .join('; ');
        const key = swap.changes.map(({ step, to }) => `${step} ${to}`).join(' ');
        return (
          <article key={key} className="bw-course-proposal" aria-label={`Swap roles: ${title}`}>
            <h3>{title}</h3>
            <BeforeAfter
              caption={`${title}: figures`}
              figures={[
                ['Minutes out', showNumber(swap.minutes.before), showNumber(swap.minutes.after)],
                ...swap.loads.map(({ role, before, after }): Figure => [
                  `${role}, min of work`,
                  showNumber(before),
                  showNumber(after),
                ]),
              ]}
            />
            {swap.clashes.map((problem, index) => (
              <p key={index} className="bw-small">
                Would clash: {courseProblemText(plan, problem, stepCalled)}
                {problem.step === null ? null : (
                  <>
                    {', at '}
                    <StepLink step={problem.step}>{`step ${stepWords(problem.step).number}`}</StepLink>
                  </>
                )}
              </p>
            ))}
            <p className="bw-small">
              {swap.bag === null
                ? 'No bag is planned: whether one would serve is not known yet.'
                : swap.bag.serves
                  ? 'The bag serves as it is planned.'
                  : `The bag has to be planned again (${countOf(swap.bag.reasons.length, 'reason')}):`}
            </p>
            {swap.bag === null || swap.bag.serves ? null : (
              <ul className="bw-course-reasons">
                {swap.bag.reasons.map((says) => (
                  <li key={says}>{says}</li>
                ))}
              </ul>
            )}
            <Button onClick={() => onSwap(swap)}>Take these roles</Button>
          </article>
        );
      })}
    </section>
  );
}
