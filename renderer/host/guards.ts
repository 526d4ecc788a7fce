/**
 * The page's own locks. Electron has stronger ones in its main process; in the browser window these are what stands
 * between a stray link or a dropped file and a window that shows something else than the program.
 */
export interface PageGuards {
  /** Called with the files a person dropped anywhere on the page. */
  onFilesDropped?: (files: File[]) => void;
}

/** Puts the locks on; the returned function takes them off again (tests only: the program never does). */
export function guardPage(guards: PageGuards = {}): () => void {
  const off = new AbortController();
  const listen = <K extends keyof WindowEventMap>(kind: K, act: (event: WindowEventMap[K]) => void): void =>
    window.addEventListener(kind, act, { capture: true, signal: off.signal });

  listen('dragover', (event) => {
    if (staysInField(event)) return;
    event.preventDefault();
    if (event.dataTransfer !== null && guards.onFilesDropped === undefined) event.dataTransfer.dropEffect = 'none';
  });
  listen('drop', (event) => {
    if (staysInField(event)) return;
    // A widget of the page may still take the drop; only the browser's own answer, to open the thing, is refused.
    event.preventDefault();
    const files = [...(event.dataTransfer?.files ?? [])];
    if (files.length > 0) guards.onFilesDropped?.(files);
  });
  listen('click', refuseForeignLink);
  listen('auxclick', refuseForeignLink);
  listen('submit', (event) => event.preventDefault());

  navigation.addEventListener('navigate', refuseNavigation, { signal: off.signal });
  const open = window.open.bind(window);
  window.open = () => null;
  off.signal.addEventListener('abort', () => (window.open = open));
  return () => off.abort();
}

/** Text pulled into a field moves no window; a file, or a drop beside every field, could. */
function staysInField(event: DragEvent): boolean {
  const target = event.composedPath()[0];
  const isField =
    target instanceof HTMLInputElement ||
    target instanceof HTMLTextAreaElement ||
    (target instanceof HTMLElement && target.isContentEditable);
  return isField && event.dataTransfer?.types.includes('Files') !== true;
}

/** A finished document at the program's own address is the one thing that may open beside the program. */
function isPrintedDocument(address: string): boolean {
  const url = new URL(address, location.href);
  return url.origin === location.origin && /^\/document\/[\w-]+\.pdf$/.test(url.pathname);
}

function refuseForeignLink(event: MouseEvent): void {
  const link = event
    .composedPath()
    .find((node) => node instanceof HTMLAnchorElement || node instanceof HTMLAreaElement);
  if (!(link instanceof HTMLAnchorElement || link instanceof HTMLAreaElement) || link.href === '') return;
  if (link.hasAttribute('download') && link.href.startsWith(`blob:${location.origin}/`)) return;
  const inAnotherWindow =
    event.type === 'auxclick' || event.ctrlKey || event.metaKey || event.shiftKey || !/^(_self)?$/.test(link.target);
  if (inAnotherWindow ? !isPrintedDocument(link.href) : !staysHere(link.href)) event.preventDefault();
}

function refuseNavigation(event: NavigateEvent): void {
  if (event.downloadRequest !== null && event.destination.url.startsWith(`blob:${location.origin}/`)) return;
  if (!staysHere(event.destination.url)) event.preventDefault();
}

/** The program is one page: it moves by its fragment, or loads itself anew. */
function staysHere(address: string): boolean {
  const url = new URL(address, location.href);
  return url.origin === location.origin && url.pathname === location.pathname && url.protocol === location.protocol;
}
