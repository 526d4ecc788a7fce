import type { AnyRecord, TableName } from '../../shared-types/records/index.ts';
import { RefusedError } from '../engine/errors.ts';
import { everythingBytesMax } from '../engine/everything/everythingBytes.ts';
import type { Differing, Into } from '../engine/everything/intoHere.ts';
import type { Contrary, Looked } from '../engine/everything/lookedInto.ts';
import { recordsPiece, textPiece } from './everythingMessages.ts';
import type { EverythingAsked, EverythingRead, EverythingTold } from './everythingMessages.ts';

export type { EverythingRead } from './everythingMessages.ts';

export interface EverythingReading {
  /** @throws RefusedError with what keeps the file out */
  read(file: { name: string; text: string }, onDoing: (doing: string) => void): Promise<EverythingRead>;
  /** Hands over all that is kept; before anything is looked at. */
  hold(here: ReadonlyMap<TableName, ReadonlyMap<string, AnyRecord>>): Promise<void>;
  look(differing: Differing): Promise<{ looked: Looked } | { contrary: Contrary; more: number }>;
  /** What would be written, as it was looked at last. */
  puts(): Promise<Into['puts']>;
  /** Ends the worker, at once; nothing more is answered. */
  end(): void;
}

const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/** Reads, judges and compares a file with everything in a worker of its own; nothing larger than a piece crosses over at a time. */
export function startEverything(): EverythingReading {
  const worker = new Worker(new URL('./everythingWorker.ts', import.meta.url), { type: 'module' });
  let ended = false;
  let take: (message: EverythingTold) => void = () => undefined;
  let fail: (error: unknown) => void = () => undefined;
  const post = (message: EverythingAsked): void => worker.postMessage(message);
  worker.addEventListener('message', ({ data }: MessageEvent<EverythingTold>) => {
    // A message may be on its way while the worker is ended.
    if (ended) return;
    if (data.kind === 'refused') fail(new RefusedError(data.refusal));
    else take(data);
  });
  worker.addEventListener('error', ({ message }) => {
    if (!ended) fail(new Error(`Reading the file stopped: ${message}`));
  });
  const answered = <T>(taken: (message: EverythingTold, give: (answer: T) => void) => void): Promise<T> =>
    new Promise((give, refuse) => {
      take = (message) => taken(message, give);
      fail = refuse;
    });

  return {
    async read({ name, text }, onDoing) {
      if (text.length > everythingBytesMax)
        throw new RefusedError({
          ...{ code: 'too-large', file: name },
          message: `It has more than ${everythingBytesMax / 1024 / 1024} MiB, the most that is read`,
        });
      const answer = answered<EverythingRead>((message, give) => {
        if (message.kind === 'doing') onDoing(message.doing);
        else if (message.kind === 'read') give(message.read);
      });
      // It may fail before all of the file is handed over.
      answer.catch(() => undefined);
      for (let from = 0; from === 0 || from < text.length; from += textPiece) {
        if (from > 0) await breathe();
        if (ended) break;
        const isLast = from + textPiece >= text.length;
        post({ kind: 'text', name, piece: text.slice(from, from + textPiece), isLast });
      }
      return await answer;
    },
    async hold(here) {
      for (const [table, kept] of here) {
        const records = [...kept.values()];
        for (let from = 0; from < records.length; from += recordsPiece) {
          if (ended) return;
          post({ kind: 'here', table, records: records.slice(from, from + recordsPiece) });
          await breathe();
        }
      }
    },
    look(differing) {
      const answer = answered<{ looked: Looked } | { contrary: Contrary; more: number }>((message, give) => {
        if (message.kind === 'looked' || message.kind === 'contrary') give(message);
      });
      post({ kind: 'look', differing });
      return answer;
    },
    puts() {
      const puts: Into['puts'] = [];
      const answer = answered<Into['puts']>((message, give) => {
        if (message.kind !== 'puts') return;
        for (const put of message.puts) puts.push(put);
        if (message.isLast) give(puts);
      });
      post({ kind: 'puts' });
      return answer;
    },
    end() {
      ended = true;
      worker.terminate();
    },
  };
}
