import { html, type Part } from '../manifest/html.ts';

/** Signs of scripts that are read from the right. */
const fromTheRight = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;

/** A text that somebody typed: kept apart where its reading direction could turn what stands around it. In a list of thousands each element counts. */
export function typed(text: string): Part {
  return fromTheRight.test(text) ? html`<bdi>${text}</bdi>` : text;
}
