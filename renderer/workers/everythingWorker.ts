/// <reference lib="webworker" />
import { everythingDesk } from './everythingDesk.ts';
import type { EverythingAsked } from './everythingMessages.ts';

async function sha256(text: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

const answer = everythingDesk((message) => self.postMessage(message), sha256);

// One question after the other: a piece may come while the one before is still being read.
let last = Promise.resolve();
self.addEventListener('message', ({ data }: MessageEvent<EverythingAsked>) => {
  last = last.then(() => answer(data));
});
