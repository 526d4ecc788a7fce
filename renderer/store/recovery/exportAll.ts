/** Everything that can still be read, of journal and working copy, as one JSON text. What cannot be read says why. */
import type { JournalHost } from '../../../shared-types/host.ts';
import { breathe } from '../breathe.ts';
import { ask, entriesFrom } from '../writing/hostCalls.ts';
import { within } from '../noAnswer.ts';
import { listDatabases, rawContents } from '../copy/rawDatabase.ts';
import type { ListedDatabase } from '../copy/rawDatabase.ts';
import { whyNotSaved } from '../writing/whyNotSaved.ts';

export interface ExportAround {
  journal: JournalHost;
  now: () => Date;
  limitMs: () => number;
  /** The working copy that a recovery would go by, where it is known. */
  copy: string | null;
}

const ours = /^bagwright-\d+$/;

export async function exportAll({ journal, now, limitMs, copy }: ExportAround): Promise<string> {
  const text: string[] = [`{"bagwright":"everything","form":1,"savedAt":${JSON.stringify(now().toISOString())}`];
  text.push(',"journal":');
  await writeJournal(text, journal, limitMs);
  text.push(',"workingCopies":[');
  const listed = await within(listDatabases(), limitMs(), 'the list of databases').catch(() => []);
  // Where the journal cannot say which is the right one, all of them are.
  const wanted = listed.filter(({ name }) => (copy === null ? ours.test(name) : name === copy));
  for (const [at, database] of wanted.entries()) {
    if (at > 0) text.push(',');
    await writeCopy(text, database, limitMs);
  }
  text.push(']}');
  return text.join('');
}

async function writeJournal(text: string[], journal: JournalHost, limitMs: () => number): Promise<void> {
  text.push('{"entries":[');
  let count = 0;
  let fault: string | null = null;
  try {
    for await (const entries of entriesFrom(journal, 1, limitMs)) {
      for (const entry of entries) {
        text.push(count > 0 ? ',\n' : '\n', JSON.stringify(entry));
        count += 1;
      }
      await breathe();
    }
  } catch (error) {
    fault = whyNotSaved(error);
  }
  const state = await ask(() => journal.open(), limitMs(), 'the journal').catch(() => null);
  const { recent: _recent, ...rest } = state ?? { recent: [] };
  text.push(
    `],"count":${count},"state":${JSON.stringify(state === null ? null : rest)},"fault":${JSON.stringify(fault)}}`,
  );
}

async function writeCopy(text: string[], { name, version }: ListedDatabase, limitMs: () => number): Promise<void> {
  text.push(`{"name":${JSON.stringify(name)},"version":${version},"tables":{`);
  let fault: string | null = null;
  try {
    const contents = await within(rawContents(name), limitMs(), 'the working copy');
    for (const [at, [table, rows]] of Object.entries(contents).entries()) {
      text.push(at > 0 ? ',\n' : '\n', `${JSON.stringify(table)}:`);
      if (!Array.isArray(rows)) {
        text.push(JSON.stringify(rows));
        continue;
      }
      text.push('[');
      for (const [place, row] of rows.entries()) {
        if (place % 1000 === 999) await breathe();
        text.push(place > 0 ? ',\n' : '\n', JSON.stringify(row));
      }
      text.push(']');
    }
  } catch (error) {
    fault = whyNotSaved(error);
  }
  text.push(`},"fault":${JSON.stringify(fault)}}`);
}
