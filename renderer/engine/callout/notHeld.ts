import type { Finding } from '../../../shared-types/judged.ts';

/** What stands behind every note of its kind. */
const ownRule = 'Rule of this program: what no source holds is said, never guessed.';

/** The note that a rule could not be judged. */
export function notHeldNote(about: string, message: string): Finding {
  return Object.freeze({ rule: 'no-published-value', severity: 'note', message, about, source: ownRule });
}
