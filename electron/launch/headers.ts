/** One way to answer, so that no answer leaves without its headers. */
import type { ServerResponse } from 'node:http';
import type { Refusal } from '../../shared-types/errors.ts';
import { barePolicy, securityHeaders } from '../site/policy.ts';

export interface Reply {
  status: number;
  mediaType?: string;
  body?: string | Buffer;
  policy?: string;
  cache?: string;
  more?: Record<string, string>;
  /** An answer held open: called once its headers are out, it writes for as long as the other side listens. */
  live?: (answer: LiveAnswer) => void;
}

export interface LiveAnswer {
  write(text: string): void;
  end(): void;
  /** The connection has ended, whoever ended it. */
  onEnd(act: () => void): void;
}

function headersOf(reply: Reply): Record<string, string> {
  return {
    ...securityHeaders,
    'Content-Security-Policy': reply.policy ?? barePolicy,
    'Cache-Control': reply.cache ?? 'no-store',
    'Content-Type': reply.mediaType ?? 'text/plain; charset=utf-8',
    // The length of what is still to be said is not known, and nothing comes after it on this connection.
    ...(reply.live === undefined
      ? { 'Content-Length': String(Buffer.byteLength(reply.body ?? '')) }
      : { Connection: 'close' }),
    ...reply.more,
  };
}

export function send(response: ServerResponse, reply: Reply): void {
  if (response.headersSent || response.destroyed) return;
  response.writeHead(reply.status, headersOf(reply));
  if (reply.live === undefined) response.end(reply.body ?? '');
  else reply.live(liveAnswer(response));
}

function liveAnswer(response: ServerResponse): LiveAnswer {
  return {
    write: (words) => void response.write(words),
    end: () => void response.end(),
    onEnd: (act) => void response.on('close', act),
  };
}

/** The same for a connection that never became a request: there is no response object to write to. */
export function rawReply(status: number, reason: string): string {
  const reply: Reply = { status, body: `${reason}\n`, more: { Connection: 'close' } };
  const lines = Object.entries(headersOf(reply)).map(([name, value]) => `${name}: ${value}`);
  return `HTTP/1.1 ${status} ${reason}\r\n${lines.join('\r\n')}\r\n\r\n${reply.body as string}`;
}

export function text(status: number, words: string, more: Record<string, string> = {}): Reply {
  return { status, body: `${words}\n`, more };
}

export function json(status: number, value: unknown): Reply {
  return { status, mediaType: 'application/json; charset=utf-8', body: JSON.stringify(value) };
}

export function refused(status: number, refusal: Refusal): Reply {
  return json(status, { refusal });
}
