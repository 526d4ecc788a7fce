/** The page and its files, from memory. */
import { fillPage, freshNonce } from '../site/page.ts';
import type { Site } from '../site/buildMap.ts';
import { pagePolicy, scriptPolicy } from '../site/policy.ts';
import type { Reply } from './headers.ts';
import type { PrintedDocument } from './printed.ts';

export function pageReply(site: Site, token: string): Reply {
  const nonce = freshNonce();
  return {
    status: 200,
    mediaType: 'text/html; charset=utf-8',
    body: fillPage(site.page, { nonce, token }),
    policy: pagePolicy(nonce),
  };
}

/** The path is looked up as it came: nothing is decoded or joined, so there is nothing to climb out of. */
export function fileReply(site: Site, path: string): Reply | null {
  const file = site.files.get(path);
  if (file === undefined) return null;
  return {
    status: 200,
    mediaType: file.mediaType,
    body: file.bytes,
    ...(file.mediaType.startsWith('text/javascript') ? { policy: scriptPolicy } : {}),
    cache: file.named ? 'public, max-age=31536000, immutable' : 'no-cache',
  };
}

/** Chromium shows a PDF in a page of its own making, which needs its own styles and the document as an object. */
const documentPolicy =
  "default-src 'none'; object-src 'self'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

export function documentReply({ name, bytes }: PrintedDocument): Reply {
  return {
    status: 200,
    mediaType: 'application/pdf',
    body: bytes,
    policy: documentPolicy,
    more: { 'Content-Disposition': `inline; filename*=UTF-8''${encodeURIComponent(name)}` },
  };
}
