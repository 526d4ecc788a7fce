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
const power = 'tests/electron/powerLoss.test.ts';
const snapshots = 'tests/electron/snapshots.test.ts';
const server = 'tests/electron/server.test.ts';
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
    test: { project: 'unit', file: faults, name: 'once: the one is refused' },
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
    test: { project: 'unit', file: 'tests/electron/journalVerify.test.ts', name: 'a line edited, deleted, swapped' },
  },
  {
    name: 'a line may follow any other',
    file: 'electron/journal/entry.ts',
    text: 'due.prevHash !== null && entry.prevHash !== due.prevHash',
    instead: 'due.prevHash === entry.seq.toString()',
    test: { project: 'unit', file: 'tests/electron/journalVerify.test.ts', name: 'a line edited, deleted, swapped' },
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
  {
    name: 'a line counts before it is synced, seen by the power that goes',
    file: 'electron/journal/segmentWriter.ts',
    text: '        await target.datasync();\n',
    instead: '',
    test: { project: 'unit', file: power, name: 'takes nothing that was synced' },
  },
  {
    name: 'a new file’s name is not on the disk when its lines are',
    file: 'electron/journal/segmentWriter.ts',
    text: '      await syncFolder(folder, disk);\n',
    instead: '',
    test: { project: 'unit', file: power, name: 'takes nothing that was synced' },
  },
  {
    name: 'a torn line is passed over without a word',
    file: 'electron/journal/tail.ts',
    text: '  return { bytes: torn.bytes.length, file };\n',
    instead: '  return null;\n',
    test: { project: 'unit', file: faults, name: 'is moved aside, whole, at every byte it can end at' },
  },
  {
    name: 'a second process takes a lock that is held',
    file: 'electron/journal/lock.ts',
    text: '    if (holder !== null && processes.isRunning(holder)) throw heldBy(holder);\n',
    instead: '',
    test: {
      project: 'unit',
      file: 'tests/electron/journalProcesses.test.ts',
      name: 'held by a process that runs is not',
    },
  },
  {
    name: 'a pointer is renamed before it is synced',
    file: 'electron/files/writeWhole.ts',
    text: '      await file.sync();\n',
    instead: '',
    test: { project: 'unit', file: faults, name: 'of the folder comes after the journal' },
  },
  {
    name: 'a snapshot is not read back',
    file: 'electron/journal/snapshots/writeSnapshot.ts',
    text: "    if (sumOf([await disk.readFile(beside)]) !== sum)\n      throw new Error('the snapshot was not written whole: what was read back is not what was written');\n",
    instead: '',
    test: { project: 'unit', file: snapshots, name: 'leaves the one before whole' },
  },
  {
    name: 'a snapshot is renamed before it is synced',
    file: 'electron/journal/snapshots/writeSnapshot.ts',
    text: '      await file.sync();\n',
    instead: '',
    test: { project: 'unit', file: snapshots, name: 'goes by another name first, is synced' },
  },
  {
    name: 'a snapshot’s sum is not checked',
    file: 'electron/journal/snapshots/format.ts',
    text: 'sumOf([body]) === end ?',
    instead: "sumOf([body]) !== '' ?",
    test: { project: 'unit', file: snapshots, name: 'is refused with its reason' },
  },
  {
    name: 'a snapshot takes in lines that turned under an open journal',
    file: 'electron/journal/snapshots/fold.ts',
    text: 'hashOfLine(line, frame.hash) !== frame.hash',
    instead: "frame.hash === ''",
    test: { project: 'unit', file: 'tests/electron/entryText.test.ts', name: 'is held against its hash again' },
  },
  {
    name: 'snapshots are cleared away while far less is kept',
    file: 'electron/journal/snapshots/keeper.ts',
    text: '      if (shrunk !== null) await held.set(shrunk);\n',
    instead: '',
    test: { project: 'unit', file: snapshots, name: 'is not done while far less is kept than was' },
  },
  {
    name: 'the server answers to any name',
    file: 'electron/launch/gate.ts',
    text: "  if (request.headers.host !== `127.0.0.1:${port}`) return text(421, 'This server answers for one address only');\n",
    instead: '',
    test: { project: 'unit', file: server, name: 'answers no Host' },
  },
  {
    name: 'a call needs no token',
    file: 'electron/launch/gate.ts',
    text: '!sameSecret(given, token)',
    instead: '!sameSecret(token, token)',
    test: { project: 'unit', file: server, name: 'without the token, or with another' },
  },
  {
    name: 'a cell of a table is run by a spreadsheet',
    file: 'renderer/engine/sheet/csvText.ts',
    text: "(typeof cell === 'string' ? harmless(cell) : cell)));\n  const hasSignedFirst",
    instead: '(cell)));\n  const hasSignedFirst',
    test: {
      project: 'pure',
      file: 'tests/engine/sheet/cells.test.ts',
      name: 'leave numbers alone, negative ones too',
    },
  },
  {
    name: 'a workbook may grow without end',
    file: 'renderer/engine/sheet/xlsx/unpackEntry.ts',
    text: '    if (length + piece.length > unpackedBytes)\n',
    instead: '    if (length + piece.length < 0)\n',
    test: { project: 'pure', file: 'tests/engine/sheet/xlsx/bombs.test.ts', name: 'a size that lies' },
  },
  {
    name: 'a workbook’s parts may be of any size',
    file: 'renderer/engine/sheet/xlsx/checkSizes.ts',
    text: '    if (unpackedBytes > entryMostBytes)\n',
    instead: '    if (unpackedBytes < 0)\n',
    test: { project: 'pure', file: 'tests/engine/sheet/xlsx/bombs.test.ts', name: 'one part that is too much' },
  },
  {
    name: 'an event of a manifest may say something else',
    file: 'renderer/engine/record/chain.ts',
    text: '    if ((await eventHash(event, digest)) !== event.hash)',
    instead: "    if ((await eventHash(event, digest)) === '')",
    test: { project: 'pure', file: 'tests/engine/record/chain.test.ts', name: 'shows 400 seeded damages' },
  },
  {
    name: 'entries that are not saved wait for the browser’s plain storage',
    file: 'renderer/components/RecordForm/draftCopies.ts',
    text: '  putOnDisk({ name, text, at }).catch(() => undefined);\n',
    instead: '  if (at === name) void putOnDisk({ name, text, at });\n',
    test: {
      project: 'browser',
      file: 'tests/browser/recordForm.test.tsx',
      name: 'brings back from the disk what',
    },
  },
  {
    name: 'an empty program is shown though a snapshot goes further',
    file: 'renderer/store/opening/opening.ts',
    text: '  if (further === null || around.asItIs) return opened;\n',
    instead: '  if (further === null || !around.asItIs) return opened;\n',
    test: {
      project: 'browser',
      file: 'tests/browser/snapshotFurther.test.tsx',
      name: 'is told of before an empty program is shown',
    },
  },
  {
    name: 'what is left of a former journal clears the snapshots of a new one away',
    file: 'electron/journal/snapshots/rotate.ts',
    text: '  return [...ofOneJournal(names.filter((name) => !isFurther(name))), ...ofOneJournal(names.filter(isFurther))];\n',
    instead: '  return ofOneJournal(names.filter((name) => isFurther(name) || !isFurther(name)));\n',
    test: {
      project: 'unit',
      file: 'tests/electron/snapshots.test.ts',
      name: 'clears away nothing of a journal begun anew',
    },
  },
];
