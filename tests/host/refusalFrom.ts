import { expect } from 'vitest';
import { RefusedError } from '../../renderer/engine/errors.ts';
import type { Refusal } from '../../shared-types/errors.ts';

/** The refusal with which work ends, as the page sees it. */
export async function refusalFrom(work: Promise<unknown>): Promise<Refusal> {
  const outcome = await work.then(
    () => null,
    (cause: unknown) => cause,
  );
  expect(outcome).toBeInstanceOf(RefusedError);
  return (outcome as RefusedError).refusal;
}
