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
}

function headersOf(reply: Reply): Record<string, string> {
  return {
    ...securityHeaders,
    'Content-Security-Policy': reply.policy ?? barePolicy,
    'Cache-Control': reply.cache ?? 'no-store',
    'Content-Type': reply.mediaType ?? 'text/plain; charset=utf-8',
    'Content-Length': String(Buffer.byteLength(reply.body ?? '')),
    ...reply.more,
  };
}

export function send(response: ServerResponse, reply: Reply): void {
  if (response.headersSent || response.destroyed) return;
  response.writeHead(reply.status, headersOf(reply));
  response.end(reply.body ?? '');
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
