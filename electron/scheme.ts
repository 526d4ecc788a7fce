/** `app://bagwright/`: the page's own scheme, answered from the list of built files and from nothing else. */
import { protocol } from 'electron';
import { identity } from '../shared-types/ipc.ts';
import type { Site } from './site/buildMap.ts';
import { fillPage, freshNonce } from './site/page.ts';
import { barePolicy, pagePolicy, scriptPolicy, securityHeaders } from './site/policy.ts';

/** Must be called before the shell is ready. */
export function claimScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: identity.scheme, privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
  ]);
}

export function serveScheme(site: Site): void {
  protocol.handle(identity.scheme, (request) => answer(site, request));
}

function answer(site: Site, request: Request): Response {
  const prefix = `${identity.electronOrigin}/`;
  if (request.method !== 'GET' || !request.url.startsWith(prefix)) return plain(405, 'Not asked like that');
  const path = `/${request.url.slice(prefix.length).replace(/#.*$/, '')}`;
  if (path === '/') {
    const nonce = freshNonce();
    return reply(fillPage(site.page, { nonce, token: '' }), 200, 'text/html; charset=utf-8', pagePolicy(nonce));
  }
  const file = site.files.get(path);
  if (file === undefined) return plain(404, 'There is no such file');
  const isScript = file.mediaType.startsWith('text/javascript');
  return reply(new Uint8Array(file.bytes), 200, file.mediaType, isScript ? scriptPolicy : barePolicy);
}

function plain(status: number, words: string): Response {
  return reply(words, status, 'text/plain; charset=utf-8', barePolicy);
}

function reply(body: BodyInit, status: number, mediaType: string, policy: string): Response {
  return new Response(body, {
    status,
    headers: {
      ...securityHeaders,
      'Content-Type': mediaType,
      'Content-Security-Policy': policy,
      'Cache-Control': 'no-store',
    },
  });
}
