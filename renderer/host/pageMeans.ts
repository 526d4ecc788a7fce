/** What a page can do by itself: choose a file, hand one to the browser's download. */
import type { PageMeans } from './browserHost.ts';
import type { ChosenFile } from './readText.ts';

let tokenOnce: string | null = null;

export function pageMeans(): PageMeans {
  return { token: takeToken(), fetch: (...request) => fetch(...request), chooseFile, download };
}

/** The token leaves the document once read, so that nothing which copies the page's markup copies it too. */
function takeToken(): string {
  const meta = document.querySelector<HTMLMetaElement>('meta[name="bagwright-token"]');
  tokenOnce ??= meta?.content ?? '';
  meta?.remove();
  return tokenOnce;
}

function chooseFile(extensions: string[]): Promise<ChosenFile | null> {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = extensions.map((ending) => `.${ending.replace(/^\./, '')}`).join(',');
  input.hidden = true;
  // Out of the tree of the page's own widgets, in the document all the same: some browsers only answer an attached one.
  document.body.append(input);
  return new Promise((resolve) => {
    const settle = (file: File | null): void => {
      input.remove();
      resolve(file);
    };
    input.addEventListener('change', () => settle(input.files?.[0] ?? null), { once: true });
    input.addEventListener('cancel', () => settle(null), { once: true });
    input.click();
  });
}

function download(file: { name: string; mediaType: string; bytes: Uint8Array }): void {
  const address = URL.createObjectURL(new Blob([Uint8Array.from(file.bytes)], { type: file.mediaType }));
  const link = document.createElement('a');
  link.href = address;
  link.download = file.name;
  link.click();
  // The browser reads the bytes after this turn; a minute is ample for a copy within one machine.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
