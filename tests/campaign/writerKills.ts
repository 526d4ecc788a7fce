/** F1 at the journal: a process that does nothing but write is killed, many times, at any instant. */
import { spawn, type ChildProcess } from 'node:child_process';
import { setTimeout as pause } from 'node:timers/promises';
import { linesIn } from '../electron/support/journalParts.ts';
import { must, mustEqual, type Part } from './part.ts';
import { plainScript } from './support/plainScript.ts';
import { scratch } from './support/scratch.ts';
import { shelfJournal } from './support/shelves.ts';

export interface Writing {
  child: ChildProcess;
  said: () => string[];
  /** Resolves with the first words: that it is open, or why not. */
  first: Promise<string>;
  ended: Promise<void>;
}

export const writerSource = 'tests/electron/support/journalWriter.ts';

/** @param writer - the writer as one plain file */
export function startWriting(writer: string, folder: string, wordBytes = 100): Writing {
  const child = spawn(process.execPath, [writer, folder, String(wordBytes)], { stdio: ['ignore', 'pipe', 'inherit'] });
  let text = '';
  let tell: (line: string) => void = () => undefined;
  const first = new Promise<string>((resolve) => (tell = resolve));
  child.stdout?.on('data', (part: Buffer) => {
    text += String(part);
    if (text.includes('\n')) tell(text.split('\n')[0] ?? '');
  });
  const ended = new Promise<void>((resolve) => child.on('close', () => resolve()));
  // The last line may be broken off with the process.
  return { child, said: () => text.split('\n').slice(0, -1), first, ended };
}

export const writerKills: Part = {
  of: 'F1',
  fault: 'kill -9 of a process that writes the journal, at any instant',
  trials: 200,
  async open() {
    const own = scratch();
    const writer = await plainScript(writerSource, own.folder());
    const within = own.folder();
    const { folder, close } = shelfJournal(within);
    close();
    const acknowledged = new Map<number, string>();
    let last = 0;
    return {
      async trial(_n, chance) {
        const writing = startWriting(writer, folder, chance.whole(0, 3) * 600);
        try {
          mustEqual(await writing.first, `open ${last}`, 'lost', 'what the process found');
          await pause(chance.whole(5, 120));
        } finally {
          writing.child.kill('SIGKILL');
          await writing.ended;
        }
        for (const line of writing.said().slice(1)) {
          const [seq = '', hash = ''] = line.split(' ');
          acknowledged.set(Number(seq), hash);
        }
        const journal = shelfJournal(within);
        const { seq, damage } = await journal.open();
        journal.close();
        mustEqual(damage, null, 'partial', 'the journal after a kill');
        must(seq >= Math.max(0, ...acknowledged.keys()), 'lost', `it ends with ${seq}`);
        last = seq;
        const kept = new Map(linesIn(folder).map((line) => [Number(/"seq":(\d+)/.exec(line)?.[1]), line]));
        const lost = [...acknowledged].filter(([at, hash]) => kept.get(at)?.includes(`"hash":"${hash}"`) !== true);
        mustEqual(lost, [], 'lost', 'entries that were acknowledged');
      },
      close() {
        const written = acknowledged.size;
        own.clear();
        must(written > 0, 'broken', 'no kill met a process that wrote');
      },
    };
  },
};
