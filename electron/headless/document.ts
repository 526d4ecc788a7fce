import type { Refusal } from '../../shared-types/errors.ts';
import { RefusedError } from '../../renderer/engine/errors.ts';

/** Anything thrown, as the refusal the contract speaks; what was not foreseen says no more than that. */
export function refusalOf(error: unknown): Refusal {
  if (error instanceof RefusedError) return error.refusal;
  return {
    code: 'internal',
    message: `This program failed: ${error instanceof Error ? error.message : String(error)}`,
  };
}

/**
 * One JSON document. A number that is not finite would become null without a word: it is a fault of this program and said so.
 */
export function jsonText(value: unknown, indent = 0): string {
  return JSON.stringify(
    value,
    (key, part: unknown) => {
      if (typeof part === 'number' && !Number.isFinite(part)) throw new Error(`the result's "${key}" is ${part}`);
      return part;
    },
    indent,
  );
}
