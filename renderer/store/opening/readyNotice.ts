import type { JournalState } from '../../../shared-types/journal.ts';
import { knownVersion } from '../copy/workingCopy.ts';

/** What was typed is kept apart from the working copy. */
export const openedAgain =
  'The working copy was opened again by itself, and is what the journal says. What was typed and not saved comes back when its form is opened.';

/** What a person should know of an opening that went well; null where there is nothing. */
export function readyNotice(
  { tail }: Pick<JournalState, 'tail'>,
  { replayed, broughtUp }: { replayed: number; broughtUp: number | null },
  first: string | null = null,
): string | null {
  const said = first === null ? [] : [first];
  if (broughtUp !== null)
    said.push(
      `The working copy was of version ${broughtUp}: a new one of version ${knownVersion} was built from the journal. The old one stays where it is.`,
    );
  if (replayed > 0)
    said.push(
      replayed === 1
        ? 'One change that the working copy lacked was brought over from the journal.'
        : `${replayed} changes that the working copy lacked were brought over from the journal.`,
    );
  if (tail !== null)
    said.push(
      `The journal’s last line was never finished (${tail.bytes} bytes); it was put aside as ${tail.file}. It was never called saved.`,
    );
  return said.length === 0 ? null : said.join(' ');
}
