import type { Stroke } from '../../engine/tag/index.ts';
import { isTyping } from '../palette/useCommandKeys.ts';

const given = new WeakSet<Event>();

/** Whether a key is one that was given back: it is not looked at again. */
export const isGivenBack = (event: Event): boolean => given.has(event);

/** Does for a person's keys that were held what the page would have done with them, in their order. */
export function giveBack(strokes: readonly Stroke[], target: Element): void {
  for (const { key, code } of strokes) {
    const at = target.isConnected ? target : (document.activeElement ?? document.body);
    const event = new KeyboardEvent('keydown', { key, code, bubbles: true, cancelable: true, composed: true });
    given.add(event);
    if (!at.dispatchEvent(event)) continue;
    if (key === 'Enter') enter(at);
    else if (at instanceof HTMLSelectElement) choose(at, key);
    // The one way that keeps the field's own undo and tells its listeners as typing does.
    else if ([...key].length === 1 && isTyping(at)) document.execCommand('insertText', false, key);
  }
}

function enter(at: Element): void {
  if (at instanceof HTMLTextAreaElement) document.execCommand('insertText', false, '\n');
  else if (at instanceof HTMLInputElement && isTyping(at)) at.form?.requestSubmit();
  else if (at instanceof HTMLElement && at.matches('a[href], button, summary, input')) at.click();
}

function choose(at: HTMLSelectElement, key: string): void {
  const option = [...at.options].find(({ label }) => label.startsWith(key));
  if (option === undefined) return;
  at.value = option.value;
  at.dispatchEvent(new Event('change', { bubbles: true }));
}
