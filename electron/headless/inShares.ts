import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { CalloutsResult } from '../../shared-types/callout.ts';
import { answerJson, areWhole, besideRows, type AskedCallouts } from '../../renderer/engine/callout/index.ts';
import type { Share } from '../../renderer/engine/sheet/index.ts';
import { packedShare, type PackedShare, type ShareAsked } from './packedShare.ts';

/** A file smaller than this is judged sooner than a worker has begun. */
const bytesLeast = 2 * 1024 * 1024;
/** More workers than this spend their time on beginning. */
const workersMost = 3;
/** What is judged here while a worker begins, in shares of a worker. */
const headStart = 1.3;

/**
 * A large file of callouts judged on every processor there is, each with a share of the rows, and written as one answer.
 *
 * @returns null where the file is small, or the shares do not come to what the whole does: it is then to be judged in one go
 * @throws RefusedError as besideRows does
 */
export async function judgedInShares(
  asked: AskedCallouts,
): Promise<{ beside: Omit<CalloutsResult, 'rows'>; blocks: Uint8Array[] } | null> {
  const workers = Math.min(availableParallelism() - 1, workersMost);
  if (workers < 1 || asked.content.length < bytesLeast) return null;
  const [first, ...rest] = sharesFor(workers);
  const others = rest.map((share) => new OtherShare({ ...asked, share }));
  try {
    const own = packedShare({ ...asked, share: first });
    const shares = [own, ...(await Promise.all(others.map((other) => other.answer)))];
    const judged = shares.flatMap((share) => share?.judged ?? []);
    if (judged.length < shares.length || !areWhole(judged)) return null;
    const beside = besideRows(judged, asked.skipBad);
    return {
      beside,
      blocks: togetherOf(
        shares.flatMap((share) => share ?? []),
        beside,
      ),
    };
  } finally {
    for (const other of others) other.end();
  }
}

/** One share for here, and one for each worker. */
export function sharesFor(workers: number): [Share, ...Share[]] {
  const endOf = (at: number): number => (headStart + at) / (headStart + workers);
  const rest = Array.from({ length: workers }, (_, at) => ({ from: endOf(at), to: endOf(at + 1) }));
  return [{ from: 0, to: endOf(0) }, ...rest];
}

function togetherOf(shares: readonly PackedShare[], beside: object): Uint8Array[] {
  const encoder = new TextEncoder();
  const withRows = shares.filter(({ blocks }) => blocks.length > 0);
  return [
    encoder.encode(answerJson.begin),
    ...withRows.flatMap(({ blocks }, at) => (at === 0 ? blocks : [encoder.encode(','), ...blocks])),
    encoder.encode(answerJson.end(beside)),
  ];
}

/** A share judged in a worker: null where it cannot be, for then the whole is judged here and says why. */
class OtherShare {
  readonly answer: Promise<PackedShare | null>;
  private readonly worker: Worker;

  constructor(asked: ShareAsked) {
    this.worker = new Worker(typescriptEntry(new URL('./shareWorker.ts', import.meta.url)), { workerData: asked });
    this.answer = new Promise((resolve) => {
      this.worker.once('message', resolve);
      this.worker.once('error', () => {
        resolve(null);
      });
      this.worker.once('exit', () => {
        resolve(null);
      });
    });
  }

  end(): void {
    void this.worker.terminate();
  }
}

/** The loader of TypeScript takes part in a thread only where that thread asks for it. */
function typescriptEntry(entry: URL): URL {
  const loader = import.meta.resolve('tsx/esm/api');
  const script = `import { register } from ${JSON.stringify(loader)}; register(); await import(${JSON.stringify(entry.href)});`;
  return new URL(`data:text/javascript,${encodeURIComponent(script)}`);
}
