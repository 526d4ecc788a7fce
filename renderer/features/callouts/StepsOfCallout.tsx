import { useMemo } from 'react';
import type { KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { RefusedError } from '../../engine/errors.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { inOrder } from '../../engine/records/inOrder.ts';
import { placeAddress } from '../../store/place.ts';
import { useTable } from '../session/useStore.ts';
import { stepName } from '../steps/stepTexts.ts';
import { calloutToTake } from '../steps/takenTorque.ts';
import { bandSaid, torqueChanges } from '../steps/TorqueChange.tsx';

export interface StepsOfCalloutProps {
  task: string;
  callout: KeptCallout;
  list: string;
  units: UnitsShown;
}

/** The steps that took this callout, each with the way there; those that say something else by now say what. */
export function StepsOfCallout({ task, callout, list, units }: StepsOfCalloutProps) {
  const steps = useTable('steps').rows;
  const torque = useMemo(() => {
    try {
      return calloutToTake(callout, list);
    } catch (error) {
      if (!(error instanceof RefusedError)) throw error;
      return null;
    }
  }, [callout, list]);
  const own = inOrder([...steps.values()].filter((step) => step.task === task));
  const taken = own.flatMap((step, at) =>
    step.calloutFrom?.kind === 'callout' && step.calloutFrom.callout === callout.id ? [{ step, number: at + 1 }] : [],
  );
  if (taken.length === 0) return null;
  return (
    <section className="bw-callout-part" aria-label="Steps that took it">
      <h2>Steps that took it</h2>
      <ul className="bw-callout-lines">
        {taken.map(({ step, number }) => (
          <li key={step.id}>
            <a href={placeAddress({ at: 'steps', step: step.code })}>
              {number} · {stepName(step)}
            </a>
            {torque !== null && torqueChanges(step, torque, units).length === 0
              ? ', as it is here'
              : `, with ${bandSaid(step.callout, units)}: something else than here`}
          </li>
        ))}
      </ul>
    </section>
  );
}
