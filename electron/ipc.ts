/** The one gate between the page and the shell. Every channel passes it; there is no other way in. */
import { ipcMain, type BrowserWindow, type IpcMainInvokeEvent } from 'electron';
import { argumentRefusal, channelArguments, identity, type Answer, type Channel } from '../shared-types/ipc.ts';
import type { z } from '../shared-types/schema.ts';
import { refusalOf } from './site/refusal.ts';

export type Arguments<C extends Channel> = z.infer<(typeof channelArguments)[C]>;
export type Handlers = { [C in Channel]: (window: BrowserWindow, ...given: Arguments<C>) => Promise<unknown> };

export function answerChannels(handlers: Handlers, currentWindow: () => BrowserWindow | null): void {
  for (const channel of Object.keys(channelArguments) as Channel[])
    answerChannel(channel, handlers[channel], currentWindow);
}

function answerChannel<C extends Channel>(
  channel: C,
  handler: Handlers[C],
  currentWindow: () => BrowserWindow | null,
): void {
  ipcMain.handle(channel, async (event, ...given: unknown[]): Promise<Answer<unknown>> => {
    const window = currentWindow();
    // A stranger gets no answer to learn from, only an exception.
    if (window === null || !isOurPage(event, window)) throw new Error('This sender is not the program');
    const checked = channelArguments[channel].safeParse(given);
    if (!checked.success) return { ok: false, refusal: argumentRefusal(checked.error) };
    try {
      return { ok: true, value: await handler(window, ...(checked.data as Arguments<C>)) };
    } catch (cause) {
      return { ok: false, refusal: refusalOf(cause) };
    }
  });
}

/** The window's own top frame, showing the program's own page. A frame that is gone, or inside another, is a stranger. */
function isOurPage(event: IpcMainInvokeEvent, window: BrowserWindow): boolean {
  const frame = event.senderFrame;
  return (
    event.sender === window.webContents &&
    frame !== null &&
    frame.parent === null &&
    frame.url.startsWith(`${identity.electronOrigin}/`)
  );
}
