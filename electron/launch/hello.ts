/** Who holds our port: a copy of this program with the same data folder, or a stranger. */
import { randomBytes } from 'node:crypto';
import { request } from 'node:http';
import { api } from '../../shared-types/ipc.ts';
import { nonceHeader } from './routes.ts';
import { loopback } from './server.ts';
import { helloProof, sameSecret } from './token.ts';

const patienceMs = 3_000;
const longestAnswer = 4_096;

/** A stranger cannot answer: the proof needs the key, which lies in the user's own folder. */
export async function isOurs(port: number, key: Buffer): Promise<boolean> {
  const nonce = randomBytes(32).toString('hex');
  try {
    const answer: unknown = JSON.parse(await ask(port, nonce));
    const proof = typeof answer === 'object' && answer !== null && 'proof' in answer ? answer.proof : null;
    return typeof proof === 'string' && sameSecret(proof, helloProof(key, nonce));
  } catch {
    return false;
  }
}

function ask(port: number, nonce: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const asking = request(
      {
        host: loopback,
        port,
        path: api.hello,
        headers: { [nonceHeader]: nonce },
        signal: AbortSignal.timeout(patienceMs),
      },
      (response) => {
        let answer = '';
        response.setEncoding('utf8');
        response.on('data', (part: string) => {
          answer += part;
          if (answer.length > longestAnswer) asking.destroy(new Error('too long an answer'));
        });
        response.on('end', () => resolve(answer));
        response.on('error', reject);
      },
    );
    asking.on('error', reject);
    asking.end();
  });
}
