import { html } from './html.ts';
import type { Markup } from './html.ts';
import { typed } from './manifestBody.ts';

/** What earlier outings left to be known before this one: as it stood when the sheet was made. */
export function knownBlock(known: readonly string[]): Markup {
  return html`<h2>Known of earlier outings</h2>
    <ul>
      ${known.map((words) => html`<li>${typed(words)}</li>`)}
    </ul> `;
}
