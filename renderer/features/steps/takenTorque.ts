import type { KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import type { TaskStep, TorqueOrigin } from '../../../shared-types/records/task.ts';
import { tableByKey } from '../../engine/handbook/tables.ts';
import { cellNamed, torqueOfCells } from '../../engine/inspection/index.ts';
import type { Thread } from '../../engine/thread/index.ts';
import { torqueBands } from '../../engine/torqueTable/index.ts';
import type { TorqueBand } from '../../engine/torqueTable/index.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { Act, Proposal } from '../../store/store.ts';
import { rowNameOfThread } from '../handbook/rowThread.ts';
import { stepCalled } from './stepTexts.ts';

/** A torque on its way into steps: what it writes there, and what it is called meanwhile. */
export interface TorqueToTake {
  /** "callout C-1", "FAA AC 43.13-1B, Table 7-1, 3/8-24" */
  name: string;
  thread: string;
  fields: Pick<TaskStep, 'callout' | 'calloutSource' | 'calloutFrom' | 'running' | 'runningIncluded'> & {
    callout: { min: string; max: string };
    calloutSource: string;
    calloutFrom: TorqueOrigin;
  };
}

const sourceMost = 2000;

/**
 * The torque of a kept callout: band, running torque where it names one, source and condition.
 *
 * @param list - name of its list
 * @throws RefusedError where the callout cannot be read
 */
export function calloutToTake({ id: callout, cells }: KeptCallout, list: string): TorqueToTake {
  const { condition, source, thread, ...torque } = torqueOfCells(cells);
  const id = cellNamed(cells, 'id') || 'without id';
  return {
    name: `callout ${id}`,
    thread,
    fields: {
      ...torque,
      calloutSource: (source ?? `Callout ${id} of “${list}”${condition === null ? '' : `: ${condition}`}`).slice(
        0,
        sourceMost,
      ),
      calloutFrom: { kind: 'callout', callout, id, ...(condition === null ? {} : { condition }) },
    },
  };
}

/** The torque of a published band with both ends, its stated tolerance in it; null where an end is not printed. */
function bandToTake(band: TorqueBand, thread: Thread): TorqueToTake | null {
  const { condition, source, printed, tolerance } = band;
  if (printed.min === null || printed.max === null) return null;
  const share = (tolerance?.percent ?? 0) / 100;
  const end = (value: number, by: number): string => `${showNumber(value * (1 + by), 12)} ${printed.unit}`;
  const row = rowNameOfThread(tableByKey(source.key), thread) ?? printed.thread;
  const asPrinted = [...new Set([printed.min, printed.max])].join(' to ');
  const within = tolerance === undefined ? '' : ` with a tolerance of ${showNumber(tolerance.percent)} %`;
  const name = `${source.number}, ${source.table}, ${printed.thread}`;
  return {
    name,
    thread: thread.designation,
    fields: {
      callout: { min: end(printed.min, -share), max: end(printed.max, share) },
      calloutSource: `${name}: ${asPrinted} ${printed.unit}${within}; ${condition}.`.slice(0, sourceMost),
      calloutFrom: { kind: 'handbook', table: source.key, row, condition },
    },
  };
}

/** Every published band of a thread that a step can take. */
export function bandsToTake(thread: Thread): TorqueToTake[] {
  return torqueBands({ thread }).flatMap((band) => bandToTake(band, thread) ?? []);
}

/** A step with the torque in it. What the torque says nothing of, as a running torque of the step's own, stays. */
export function withTorque(step: TaskStep, { fields }: TorqueToTake): TaskStep {
  return { ...step, ...fields };
}

/** One act for all of them. */
export function takeTorque(steps: readonly { step: TaskStep; number: number | null }[], torque: TorqueToTake): Act {
  const [only] = steps;
  const into = steps.length === 1 && only !== undefined ? stepCalled(only.step, only.number) : `${steps.length} steps`;
  return {
    action: 'edit-step',
    title: `Take the torque of ${torque.name.slice(0, 120)} into ${into}`,
    proposals: steps.map(({ step }): Proposal => ({ table: 'steps', put: withTorque(step, torque) })),
  };
}
