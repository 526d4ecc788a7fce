import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import type { Fault } from './faults.ts';

/**
 * What the planner still needs of a step that may be kept as it is: work in hand is not wrong, only unfinished.
 *
 * @param step - a step without faults
 * @param at - what it acts on; null where it names none
 * @returns paths of the fields to fill in, with what the planner needs them for; empty where nothing is missing
 */
export function incompletenessOf(step: TaskStep, at: Interface | null): Fault[] {
  const needs: Fault[] = [];
  const need = (path: string, message: string) => needs.push({ path, message });
  if (step.runningIncluded === false && step.running === undefined)
    need('running', 'is missing: running torque is not in the callout, so the torque to add must be given');
  if (step.action === 'use') return needs;
  const turns = step.action === 'tighten' ? 'tightens' : 'loosens';
  if (step.fastener === undefined && at?.fastener === undefined)
    need('fastener', `is missing: a step that ${turns} names its fastener, or an interface that has one`);
  if (step.action === 'tighten' && step.callout === undefined)
    need('callout', 'is missing: a step that tightens has a callout');
  if (step.action === 'loosen' && step.demand === undefined)
    need('demand', 'is missing: a step that loosens says the torque its parts must bear');
  return needs;
}
