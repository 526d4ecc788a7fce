import type { JournalState } from '../../../shared-types/journal.ts';

/** What a person should know of an opening that went well; null where there is nothing. */
export function readyNotice({ tail }: Pick<JournalState, 'tail'>, replayed: number): string | null {
  const said: string[] = [];
  if (replayed > 0)
    said.push(
      replayed === 1
        ? 'One change that the working copy lacked was brought over from the journal.'
        : `${replayed} changes that the working copy lacked were brought over from the journal.`,
    );
  if (tail !== null)
    said.push(
      `The journal's last line was never finished (${tail.bytes} bytes); it was put aside as ${tail.file}. It was never called saved.`,
    );
  return said.length === 0 ? null : said.join(' ');
}
