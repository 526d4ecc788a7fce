/**
 * Lines on which the promise of "Saved" stands. Each is taken out or turned round by itself, and the test named must
 * then fail: a promise that no test would miss is not kept by any.
 */
export interface Mutant {
  name: string;
  file: string;
  /** As it stands in the file, once. */
  text: string;
  /** What stands there instead. */
  instead: string;
  test: { project: 'pure' | 'unit' | 'browser' | 'e2e'; file: string; name: string };
}

const faults = 'tests/electron/journalFaults.test.ts';
const opening = 'tests/browser/storeOpening.test.ts';
const windows = 'tests/browser/storeWindows.test.ts';

export const mutants: readonly Mutant[] = [
  {
    name: 'a line counts before it is synced',
    file: 'electron/journal/segmentWriter.ts',
    text: '        await target.datasync();\n',
    instead: '',
    test: { project: 'unit', file: faults, name: 'comes before every answer' },
  },
  {
    name: 'a new file’s folder is not synced',
    file: 'electron/journal/segmentWriter.ts',
    text: '      await syncFolder(folder, disk);\n',
    instead: '',
    test: { project: 'unit', file: faults, name: 'comes before every answer' },
  },
  {
    name: 'what a full disk took of a line stays in the file',
    file: 'electron/journal/segmentWriter.ts',
    text: '      await written.truncate(bytes);\n',
    instead: '',
    test: { project: 'unit', file: faults, name: 'once, for n from 1 to 100' },
  },
  {
    name: 'a deleted file takes lines',
    file: 'electron/journal/segmentWriter.ts',
    text: 'else if (nlink === 0)',
    instead: 'else if (nlink < 0)',
    test: { project: 'unit', file: faults, name: 'is noticed before anything is called saved' },
  },
  {
    name: 'any sequence is taken',
    file: 'electron/journal/journal.ts',
    text: '    if (seq !== tally.seq + 1) throw behind(seq, tally.seq);\n',
    instead: '',
    test: { project: 'unit', file: 'tests/electron/journal.test.ts', name: 'a sequence that is not the next' },
  },
  {
    name: 'anyone writes',
    file: 'electron/journal/journal.ts',
    text: '    if (!mayWrite()) throw notWriter();\n    if (damage',
    instead: '    if (damage',
    test: { project: 'unit', file: 'tests/electron/journal.test.ts', name: 'want of the right to write' },
  },
  {
    name: 'a damaged journal is written on',
    file: 'electron/journal/journal.ts',
    text: "    if (damage !== null) throw new HostRefusal({ code: 'disk', message: 'The journal is damaged and takes nothing.' });\n",
    instead: '',
    test: { project: 'unit', file: 'tests/electron/journalVerify.test.ts', name: 'takes nothing, changes nothing' },
  },
  {
    name: 'a key asked twice is written twice',
    file: 'electron/journal/journal.ts',
    text: '    if (before !== undefined) return before;\n',
    instead: '',
    test: { project: 'unit', file: 'tests/electron/journal.test.ts', name: 'is answered as the first time' },
  },
  {
    name: 'a line’s hash is not checked',
    file: 'electron/journal/entry.ts',
    text: "  if (hashOfLine(bytes, entry.hash) !== entry.hash) return { reason: 'its content is not what its hash says' };\n",
    instead: '',
    test: { project: 'unit', file: 'tests/electron/journalVerify.test.ts', name: 'an edit: one byte anywhere' },
  },
  {
    name: 'a line may follow any other',
    file: 'electron/journal/entry.ts',
    text: 'due.prevHash !== null && entry.prevHash !== due.prevHash',
    instead: 'due.prevHash === entry.seq.toString()',
    test: { project: 'unit', file: 'tests/electron/journalVerify.test.ts', name: 'an entry made anew' },
  },
  {
    name: 'a newer working copy is opened',
    file: 'renderer/store/opening/opening.ts',
    text: 'there !== undefined && there.version > nativeVersion(knownVersion)',
    instead: 'there !== undefined && there.version > nativeVersion(knownVersion) + 1e9',
    test: { project: 'browser', file: opening, name: 'is not opened, not written, and can be exported' },
  },
  {
    name: 'a newer journal is opened',
    file: 'renderer/store/opening/opening.ts',
    text: "  if (state.schema > recordsVersion)\n    return hindered({ kind: 'newer-version', kept: state.schema, known: recordsVersion });\n\n",
    instead: '',
    test: { project: 'browser', file: opening, name: 'is one, too, where the journal’s records are newer' },
  },
  {
    name: 'records are not counted before they are shown',
    file: 'renderer/store/opening/compareCopy.ts',
    text: '  const apart = tableNames.filter((name) => counts[name] !== found[name]);\n',
    instead: '  const apart = tableNames.filter((name) => counts[name] < 0 && found[name] < 0);\n',
    test: { project: 'browser', file: 'tests/browser/storeApply.test.ts', name: '' },
  },
  {
    name: 'an emptied copy passes for a new one',
    file: 'renderer/store/opening/compareCopy.ts',
    text: '    if (seq === 0) return totalOf(found)',
    instead: '    if (seq >= 0) return totalOf(found)',
    test: { project: 'browser', file: 'tests/browser/storeApply.test.ts', name: '' },
  },
  {
    name: 'what was changed meanwhile is written over',
    file: 'renderer/store/writing/prepare.ts',
    text: '  return from.rev === (kept?.rev ?? 0);\n',
    instead: '  return from.rev >= 0;\n',
    test: { project: 'browser', file: windows, name: 'shows both versions in 100 of 100 tries' },
  },
  {
    name: 'an entry is applied wherever the copy has come to',
    file: 'renderer/store/copy/applyEntries.ts',
    text: 'first.seq !== head.seq + 1 || first.prevHash !== head.hash',
    instead: 'first.seq < 0',
    test: { project: 'browser', file: 'tests/browser/storeApply.test.ts', name: '' },
  },
  {
    name: 'the copy does not say how far it has come',
    file: 'renderer/store/copy/applyEntries.ts',
    text: "      await copy.meta().put({ key: 'head', seq: last.seq, hash: last.hash });\n",
    instead: '',
    test: { project: 'browser', file: 'tests/browser/storeApply.test.ts', name: '' },
  },
  {
    name: 'the database is not asked to flush',
    file: 'renderer/store/copy/workingCopy.ts',
    text: "chromeTransactionDurability: 'strict', ",
    instead: '',
    test: { project: 'browser', file: windows, name: 'asks the browser to flush each write' },
  },
  {
    name: 'a closed database opens again by itself',
    file: 'renderer/store/copy/workingCopy.ts',
    text: '    return this.ended ? Dexie.Promise.reject(new Dexie.DatabaseClosedError()) : super.open();\n',
    instead: '    return super.open();\n',
    test: { project: 'browser', file: windows, name: 'has a database that does not open again by itself' },
  },
  {
    name: 'an upgrade elsewhere goes unnoticed',
    file: 'renderer/store/copy/workingCopy.ts',
    text: "    this.on('versionchange', () => this.lose('upgraded-elsewhere'));\n",
    instead: '',
    test: { project: 'browser', file: windows, name: 'stops writing, says Reload, and leaves no row' },
  },
  {
    name: 'a copy is gone over to that was not read back',
    file: 'renderer/store/recovery/rebuild.ts',
    text: '    await mustEqual(copy, folded);\n',
    instead: '',
    test: {
      project: 'browser',
      file: 'tests/browser/storeRecovery.test.ts',
      name: 'changes over to nothing that did not take every record',
    },
  },
  {
    name: 'Saved is said before the database has it',
    file: 'renderer/store/writing/deeds.ts',
    text: "      await within(keepEntry(desk.copy, toApply, onPiece), limitMs(), 'the working copy');\n",
    instead:
      "      void within(keepEntry(desk.copy, toApply, onPiece), limitMs(), 'the working copy').catch(() => undefined);\n",
    test: {
      project: 'browser',
      file: 'tests/browser/storeSaving.test.ts',
      name: 'says Saved only once the database has it',
    },
  },
  {
    name: 'a label number with wrong check digits is taken',
    file: 'renderer/engine/tag/tag.ts',
    text: '  if (checkDigits(body) !== text.slice(-2))\n',
    instead: '  if (checkDigits(body) === text)\n',
    test: { project: 'pure', file: 'tests/engine/tag/tag.test.ts', name: 'is refused with any one digit wrong' },
  },
  {
    name: 'a label number is given to a second thing',
    file: 'renderer/store/wholeness/tags.ts',
    text: '    if ((holders.get(item.tag ?? 0) ?? 0) > 1)\n',
    instead: '    if ((holders.get(item.tag ?? 0) ?? 0) > 2)\n',
    test: {
      project: 'browser',
      file: 'tests/browser/storeTags.test.ts',
      name: 'is refused where another thing has it, on whatever shelf, and twice in one act',
    },
  },
];
