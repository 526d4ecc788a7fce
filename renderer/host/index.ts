/** The program around the page, whichever it is. */
import type { Host } from '../../shared-types/host.ts';
import type { Bridge } from '../../shared-types/ipc.ts';
import { browserHost } from './browserHost.ts';
import { electronHost } from './electronHost.ts';
import { pageMeans } from './pageMeans.ts';

declare global {
  interface Window {
    /** Present in the desktop shell only. */
    readonly bagwright?: Bridge;
  }
}

export { guardPage } from './guards.ts';

export function connectHost(): Host {
  return window.bagwright === undefined ? browserHost(pageMeans()) : electronHost(window.bagwright);
}
