import type { TaskStep } from '../../../shared-types/records/task.ts';
import { RefusedError } from '../../engine/errors.ts';
import { showBand } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { withTorque } from './takenTorque.ts';
import type { TorqueToTake } from './takenTorque.ts';

type Torque = Pick<TaskStep, 'callout' | 'running' | 'runningIncluded' | 'calloutSource' | 'calloutFrom'>;

/** A band of a step; what cannot be read stands as it was typed. */
export function bandSaid(band: TaskStep['callout'], units: UnitsShown): string {
  if (band === undefined) return 'none';
  try {
    return showBand(band.min, band.max, units);
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return `${band.min} to ${band.max}`;
  }
}

const included = (said: boolean | undefined): string => (said === undefined ? 'not said' : said ? 'yes' : 'no');

/** What a torque would change of a step: each field before and after; none where all of it is there already. */
export function torqueChanges(
  before: TaskStep,
  torque: TorqueToTake,
  units: UnitsShown,
): { field: string; before: string; after: string }[] {
  const after = withTorque(before, torque);
  const of = (step: Torque): [string, string][] => [
    ['torque', bandSaid(step.callout, units)],
    ['running torque', bandSaid(step.running, units)],
    ['running torque in the callout', included(step.runningIncluded)],
    ['condition', step.calloutFrom?.condition ?? 'none'],
    ['source', step.calloutSource ?? 'none'],
  ];
  const next = new Map(of(after));
  return of(before).flatMap(([field, was]) => {
    const will = next.get(field) ?? '';
    return was === will ? [] : [{ field, before: was, after: will }];
  });
}

/** Before and after, a line for each field that changes. */
export function TorqueChange({ step, torque, units }: { step: TaskStep; torque: TorqueToTake; units: UnitsShown }) {
  const changes = torqueChanges(step, torque, units);
  if (changes.length === 0) return <span className="bw-second">has it already</span>;
  return (
    <ul className="bw-torque-changes">
      {changes.map(({ field, before, after }) => (
        <li key={field}>
          <span className="bw-second">{field}</span> <s>{before}</s> <span aria-hidden="true">→</span>
          <span className="bw-hidden"> becomes </span> <b>{after}</b>
        </li>
      ))}
    </ul>
  );
}
