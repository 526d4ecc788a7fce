import { RefusedError } from '../errors.ts';
import { lockingLimitsOf } from '../locking/index.ts';
import type { ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import { readThread } from '../thread/index.ts';
import { readQuantity, showBand, showLimit } from '../units/index.ts';
import type { Unit, UnitsShown } from '../units/index.ts';

/** The running torque a step's writer expects, as written; null where none is given. */
export function expectedRunning(plan: ResolvedPlan, step: ResolvedStep, units: UnitsShown): string | null {
  const written = plan.source.steps.find(({ id }) => id === step.id)?.running;
  return written === undefined ? null : showBand(written.min, written.max, units);
}

/** The unit its running torque is written in; the step's own where none is given. */
export function runningUnit(plan: ResolvedPlan, step: ResolvedStep): Unit {
  const written = plan.source.steps.find(({ id }) => id === step.id)?.running;
  return written === undefined ? step.shown.torque : readQuantity(written.max, 'torque').unit;
}

/** Whether a step's fastener turns against a locking feature. */
export function isLocking(plan: ResolvedPlan, step: ResolvedStep): boolean {
  const said = plan.source.catalog.fasteners.find(({ id }) => id === step.fastener?.id)?.locking;
  return step.running !== null || (said !== undefined && said.trim() !== '' && !/^none$/i.test(said.trim()));
}

/**
 * The limits that held documents print for the thread of a locking fastener, each with its document. Which one rules is not decided here.
 *
 * @returns a sentence for each document; none for a fastener that does not lock
 * @throws only what is no refusal: a thread that no document reads has no limits
 */
export function runningLimitTexts(plan: ResolvedPlan, step: ResolvedStep, units: UnitsShown): string[] {
  if (step.fastener === null || !isLocking(plan, step)) return [];
  try {
    const held = lockingLimitsOf(readThread(step.fastener.thread));
    const said = plan.source.catalog.fasteners.find(({ id }) => id === step.fastener?.id)?.locking ?? '';
    // The document the catalog names for it, where that is held; else all that are.
    const named = held.filter(({ source }) => squeezed(said).includes(squeezed(source.number)) && said !== '');
    const texts = (named.length > 0 ? named : held).flatMap(({ printed, source }) => {
      const limits = printed.flatMap(({ limit, reading, value, unit, variant }) =>
        limit === 'reusedMin' || variant !== null
          ? []
          : [`${reading} ${showLimit(`${value} ${unit}`, limit === 'runningMax' ? 'maximum' : 'minimum', units)}`],
      );
      return limits.length === 0 ? [] : [`${limits.join('; ')}: ${source.number}, ${source.table}`];
    });
    if (texts.length === 0) return [`No running limit is held for ${step.fastener.thread}.`];
    return texts.map((text) => `Running limits: ${text}.`);
  } catch (error) {
    if (error instanceof RefusedError) return [];
    throw error;
  }
}

const squeezed = (text: string): string => text.replaceAll(/[\s-]/g, '').toLowerCase();
