/** Everything a page could be given or could wander off to, refused. */
import { session, type Session, type WebContents } from 'electron';
import { identity } from '../shared-types/ipc.ts';

let refusedRequests = 0;

/** How many requests went elsewhere than to the program itself, and were stopped. */
export function refusedRequestCount(): number {
  return refusedRequests;
}

/** Electron grants every permission unless told otherwise. */
export function lockSession(
  locked: Session = session.defaultSession,
  isOurs: (url: string) => boolean = isProgramPart,
): void {
  locked.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  locked.setPermissionCheckHandler(() => false);
  locked.setDevicePermissionHandler(() => false);
  locked.setDisplayMediaRequestHandler(null);
  locked.setSpellCheckerEnabled(false);
  locked.webRequest.onBeforeRequest((request, answer) => {
    const ours = isOurs(request.url);
    if (!ours) refusedRequests += 1;
    answer({ cancel: !ours });
  });
  // Files leave through the save dialogue alone, never as a download.
  locked.on('will-download', (event) => event.preventDefault());
}

export function lockContents(contents: WebContents): void {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  const stay = (event: { preventDefault: () => void; url: string }): void => {
    if (!isProgram(event.url)) event.preventDefault();
  };
  contents.on('will-navigate', stay);
  contents.on('will-redirect', stay);
  contents.on('will-frame-navigate', stay);
  contents.on('will-attach-webview', (event) => event.preventDefault());
  contents.on('select-bluetooth-device', (event, _devices, answer) => {
    event.preventDefault();
    answer('');
  });
}

/** Where the window may be: at the program's page. */
function isProgram(url: string): boolean {
  return url.startsWith(`${identity.electronOrigin}/`);
}

/** What the page may load: the program's files, and the pieces it makes for itself. */
function isProgramPart(url: string): boolean {
  return isProgram(url) || url.startsWith(`blob:${identity.electronOrigin}/`) || url.startsWith('data:image/');
}
