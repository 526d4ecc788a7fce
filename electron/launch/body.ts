/** A request's body, up to a limit and no further. */
import type { IncomingMessage } from 'node:http';
import { HostRefusal } from '../site/refusal.ts';

export class BodyError extends Error {
  override readonly name = 'BodyError';
  readonly status: 400 | 413;

  constructor(status: 400 | 413, message: string) {
    super(message);
    this.status = status;
  }
}

export function readBody(request: IncomingMessage, limitBytes: number): Promise<Buffer> {
  const tooLarge = (): BodyError => new BodyError(413, `More than ${limitBytes} bytes are not taken`);
  if (Number(request.headers['content-length'] ?? 0) > limitBytes) return Promise.reject(tooLarge());
  return new Promise((resolve, reject) => {
    const parts: Buffer[] = [];
    let bytes = 0;
    request.on('data', (part: Buffer) => {
      bytes += part.length;
      if (bytes > limitBytes) {
        request.pause();
        request.removeAllListeners('data');
        parts.length = 0;
        reject(tooLarge());
      } else {
        parts.push(part);
      }
    });
    request.on('end', () => resolve(Buffer.concat(parts)));
    request.on('error', () => reject(new BodyError(400, 'The request broke off')));
    request.on('close', () => reject(new BodyError(400, 'The request broke off')));
  });
}

export async function readJson(request: IncomingMessage, limitBytes: number): Promise<unknown> {
  const bytes = await readBody(request, limitBytes);
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    throw new HostRefusal({ code: 'not-json', message: 'The program was sent something that is not JSON' });
  }
}
