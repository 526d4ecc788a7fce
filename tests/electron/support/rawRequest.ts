/** A request exactly as written, for what no well-behaved client would send. */
import { connect } from 'node:net';

export interface RawReply {
  status: number;
  headers: Record<string, string[]>;
  body: string;
}

export function rawRequest(port: number, text: string, host = '127.0.0.1'): Promise<RawReply> {
  return new Promise((resolve, reject) => {
    const socket = connect({ port, host });
    let answer = '';
    socket.setEncoding('latin1');
    socket.on('data', (part: string) => {
      answer += part;
      const end = answer.indexOf('\r\n\r\n');
      const length = Number(/content-length: (\d+)/i.exec(answer)?.[1] ?? Number.NaN);
      if (end >= 0 && (text.startsWith('HEAD ') || answer.length >= end + 4 + length)) socket.destroy();
    });
    socket.on('error', reject);
    socket.on('close', () => (answer === '' ? reject(new Error('no answer')) : resolve(parse(answer))));
    socket.write(text, 'latin1');
  });
}

function parse(answer: string): RawReply {
  const [head = '', ...rest] = answer.split('\r\n\r\n');
  const headers: Record<string, string[]> = {};
  for (const line of head.split('\r\n').slice(1)) {
    const at = line.indexOf(':');
    (headers[line.slice(0, at).toLowerCase()] ??= []).push(line.slice(at + 1).trim());
  }
  return { status: Number(/^HTTP\/1\.1 (\d{3})/.exec(head)?.[1]), headers, body: rest.join('\r\n\r\n') };
}
