/**
 * Who may speak to the server. Loopback is no wall by itself: every page of every browser on the machine can reach it,
 * so each request proves where it comes from before anything is looked up.
 */
import type { IncomingMessage } from 'node:http';
import { api } from '../../shared-types/ipc.ts';
import { refused, text, type Reply } from './headers.ts';
import { sameSecret } from './token.ts';

/** What is wrong with the request's envelope, or null. */
export function checkEnvelope(request: IncomingMessage, port: number): Reply | null {
  const hosts = countOf(request, 'host');
  if (hosts !== 1) return text(400, hosts === 0 ? 'A request needs a Host' : 'A request has one Host');
  // A name that someone else's server points at 127.0.0.1 shows here, and nowhere else.
  if (request.headers.host !== `127.0.0.1:${port}`) return text(421, 'This server answers for one address only');
  if (request.url === undefined || !request.url.startsWith('/') || request.url.startsWith('//')) {
    return text(400, 'Not a path of this server');
  }
  const site = request.headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return text(403, 'Asked from another site');
  return null;
}

/** What is wrong with a call of the page's, or null. The order matters: nothing is read from a caller without a token. */
export function checkCall(request: IncomingMessage, port: number, token: string): Reply | null {
  if (countOf(request, 'origin') !== 1 || request.headers.origin !== `http://127.0.0.1:${port}`) {
    return text(403, 'Asked from another origin');
  }
  const given = request.headers[api.tokenHeader];
  if (typeof given !== 'string' || !sameSecret(given, token)) {
    return refused(401, {
      code: 'not-available',
      message: 'Bagwright was started again: load this page again.',
    });
  }
  return null;
}

function countOf(request: IncomingMessage, header: string): number {
  return request.rawHeaders.filter((name, index) => index % 2 === 0 && name.toLowerCase() === header).length;
}
