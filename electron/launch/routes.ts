/** One request, from its envelope to its answer. */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { api } from '../../shared-types/ipc.ts';
import type { Site } from '../site/buildMap.ts';
import { HostRefusal, refusalOf } from '../site/refusal.ts';
import { BodyError } from './body.ts';
import { calls } from './calls.ts';
import type { CallMeans } from './callMeans.ts';
import type { Connections } from './connections.ts';
import { checkCall, checkEnvelope } from './gate.ts';
import { json, refused, send, text, type Reply } from './headers.ts';
import type { PeerCheck } from './peer.ts';
import { documentReply, fileReply, pageReply } from './staticFiles.ts';
import { helloProof } from './token.ts';

export interface RouteMeans extends CallMeans {
  port: number;
  token: string;
  site: Site;
  helloKey: Buffer;
  connections: Connections;
  peer: PeerCheck;
}

export const nonceHeader = 'x-bagwright-nonce';
const nonceForm = /^[0-9a-f]{64}$/;

export async function answerRequest(request: IncomingMessage, response: ServerResponse, means: RouteMeans) {
  const reply = await replyTo(request, means);
  // A refused caller may still be sending; what it sends is not waited for.
  const closing = reply.status >= 400 ? { ...reply, more: { ...reply.more, Connection: 'close' } } : reply;
  send(response, closing);
}

async function replyTo(request: IncomingMessage, means: RouteMeans): Promise<Reply> {
  const wrong = checkEnvelope(request, means.port);
  if (wrong !== null) return wrong;
  const path = request.url ?? '';
  if (request.method === 'GET' || request.method === 'HEAD') return await lookUp(path, request, means);
  if (request.method !== 'POST') return text(405, 'Not a method of this server', { Allow: 'GET, HEAD, POST' });
  return await call(path, request, means);
}

async function lookUp(path: string, request: IncomingMessage, means: RouteMeans): Promise<Reply> {
  if (path === '/') return (await anotherUser(request, means)) ?? pageReply(means.site, means.token);
  if (path === api.hello) return hello(request, means.helloKey);
  if (Object.hasOwn(calls, path)) return text(405, 'Asked by POST only', { Allow: 'POST' });
  const printed = means.printed.find(path);
  if (printed !== null) return (await anotherUser(request, means)) ?? documentReply(printed);
  return fileReply(means.site, path) ?? text(404, 'There is no such file');
}

/** What holds the token or the person's work is for this machine's same user only. The program's own files are not secret. */
async function anotherUser(request: IncomingMessage, { peer }: RouteMeans): Promise<Reply | null> {
  return (await peer(request.socket)) === 'foreign' ? text(403, 'Asked by another user of this machine') : null;
}

/** A copy of the program asks whether this is one too. It learns that, and nothing else. */
function hello(request: IncomingMessage, key: Buffer): Reply {
  const nonce = request.headers[nonceHeader];
  if (typeof nonce !== 'string' || !nonceForm.test(nonce)) return text(400, 'A question needs its nonce');
  return json(200, { proof: helloProof(key, nonce) });
}

async function call(path: string, request: IncomingMessage, means: RouteMeans): Promise<Reply> {
  const wrong = checkCall(request, means.port, means.token) ?? (await anotherUser(request, means));
  if (wrong !== null) return wrong;
  const known = Object.hasOwn(calls, path) ? calls[path] : undefined;
  if (known === undefined) {
    return means.site.files.has(path) || path === '/' || path === api.hello
      ? text(405, 'Asked by GET only', { Allow: 'GET, HEAD' })
      : text(404, 'There is no such call');
  }
  if (request.headers['content-type']?.split(';')[0]?.trim() !== known.mediaType) {
    return text(415, `This call takes ${known.mediaType}`);
  }
  const release = means.connections.hold(request.socket);
  let reply: Reply;
  try {
    reply = await known.answer(request, means);
  } catch (cause) {
    reply = refusalReply(cause);
  }
  // An answer held open keeps its place until its connection ends.
  if (reply.live === undefined) release();
  return reply;
}

function refusalReply(cause: unknown): Reply {
  if (cause instanceof BodyError) {
    return refused(cause.status, {
      code: cause.status === 413 ? 'too-large' : 'wrong-shape',
      message: cause.message,
    });
  }
  return refused(cause instanceof HostRefusal ? 422 : 500, refusalOf(cause));
}
