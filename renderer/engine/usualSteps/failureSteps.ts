import type { TaskStep } from '../../../shared-types/records/task.ts';
import { practiceWords } from './parts.ts';

/** What goes wrong with a fastener, and has its own way out. */
export const failures = ['stuck', 'cross-threaded', 'sheared', 'lost'] as const;

export type Failure = (typeof failures)[number];

interface WaySaid {
  key: string;
  how: Failure;
  action: 'loosen' | 'use';
  name: string;
  /** What a person is asked for it; it is never made up. */
  asks: readonly ('gear' | 'minutes' | 'demand')[];
  assumes: string;
}

/** The ways out, mildest first. None of them has a published source, and each step says so. */
const ways: readonly WaySaid[] = [
  {
    ...{ key: 'penetrant', how: 'stuck', action: 'use', name: 'Put penetrant on {}', asks: ['gear'] },
    assumes: 'Before force, where nothing near it suffers from the fluid.',
  },
  {
    ...{ key: 'wait', how: 'stuck', action: 'use', name: 'Wait for the penetrant on {}', asks: ['minutes'] },
    assumes: 'As long as its maker says.',
  },
  {
    ...{ key: 'breaker-bar', how: 'stuck', action: 'loosen', name: 'Loosen {} with a breaker bar', asks: ['demand'] },
    assumes: 'Up to a torque that fastener, parts and driver bear, which was typed; then no further.',
  },
  {
    ...{ key: 'extractor', how: 'stuck', action: 'use', name: 'Take {} out with an extractor', asks: ['gear'] },
    assumes: 'The last means: the fastener is lost by it.',
  },
  {
    ...{ key: 'back-off', how: 'cross-threaded', action: 'loosen', name: 'Back {} off', asks: ['demand'] },
    assumes: 'At once, before it is turned any further in.',
  },
  {
    ...{ key: 'chase', how: 'cross-threaded', action: 'use', name: 'Chase the thread of {}', asks: ['gear'] },
    assumes: 'With the tap or die of that very thread, and only where the drawing lets it be used again.',
  },
  {
    ...{ key: 'rest-out', how: 'sheared', action: 'use', name: 'Take the rest of {} out', asks: ['gear'] },
    assumes: 'With an extractor; both parts of the fastener are counted back.',
  },
  {
    ...{ key: 'new-one', how: 'sheared', action: 'use', name: 'Put a new one in for {}', asks: ['gear'] },
    assumes: 'Of the same kind; its torque is given in the step that follows.',
  },
  {
    ...{ key: 'substitute', how: 'lost', action: 'use', name: 'Take a substitute for {}', asks: ['gear'] },
    assumes: 'One that the drawing allows; where the lost one lies is written down.',
  },
];

/** A step that is offered for when another one fails. */
export interface FailureStep {
  key: string;
  how: Failure;
  asks: WaySaid['asks'];
  assumes: string;
  step: Omit<TaskStep, 'id' | 'rev' | 'task' | 'position' | 'code'>;
}

/**
 * What is usually done where a step fails, tied to that step, for a person to leave out, change and add.
 *
 * @param step - the one that may fail
 * @param called - what the names call the thing it acts on
 * @param hows - what may go wrong
 * @returns mildest first for each; gear, minutes and torque are left for a person to give
 */
export function failureSteps(step: TaskStep, called: string, hows: readonly Failure[]): FailureStep[] {
  const { outing, role, fastener, access, hold, code } = step;
  return failures
    .filter((how) => hows.includes(how))
    .flatMap((how) => ways.filter((way) => way.how === how))
    .map(({ key, how, action, name, asks, assumes }) => ({
      ...{ key: `${step.id}-${key}`, how, asks, assumes },
      step: {
        ...{ outing, role, action, name: name.replace('{}', () => called) },
        ...(step.interface === undefined ? {} : { interface: step.interface }),
        ...(action === 'use' ? {} : { count: 1 }),
        ...(action === 'use' || fastener === undefined ? {} : { fastener }),
        ...(action === 'use' || access === undefined ? {} : { access }),
        ...(action === 'use' || hold === undefined ? {} : { hold }),
        ...{ contingency: true, ifFails: { step: code, how }, notes: `${practiceWords} ${assumes}` },
      },
    }));
}
