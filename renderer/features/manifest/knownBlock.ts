import { html } from './html.ts';
import type { Markup } from './html.ts';
import type { PrintedHead } from './useJournalHead.ts';
import { typed } from './manifestBody.ts';

/** What earlier outings left to be known before this one: as it stood when the sheet was made. */
export function knownBlock(known: readonly string[], journal: PrintedHead): Markup {
  return html`<h2>Known of earlier outings</h2>
    ${journal === undefined || journal === null ? null : html`<p class="small">By the record up to entry ${journal.seq} of the journal, when this was printed.</p>`}
    <ul>
      ${known.map((words) => html`<li>${typed(words)}</li>`)}
    </ul> `;
}
