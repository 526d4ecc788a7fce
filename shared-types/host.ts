/**
 * What the page may ask of the program around it. Electron and the browser window both implement all of it; the page
 * never names a path, and what a host cannot do it refuses by name.
 */
import type { Appended, AppendRequest, JournalPage, JournalState, Lease } from './journal.ts';
import type { AskedReason, KeptSnapshot, MeantThing, SnapshotList, SnapshotPage } from './snapshot.ts';

export interface HostInfo {
  kind: 'electron' | 'browser-window';
  version: string;
  /** Where this copy keeps its data, for the user to read; never an input. */
  dataFolder: string;
}

export interface OpenedText {
  name: string;
  text: string;
}

export interface FileToSave {
  /** A proposal; the host makes it safe for every file system. */
  name: string;
  mediaType:
    | 'application/json'
    | 'text/csv'
    | 'application/pdf'
    | 'text/plain'
    | 'image/svg+xml'
    | 'image/png'
    | 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';
  bytes: Uint8Array;
}

export interface DocumentToPrint {
  title: string;
  /** A whole HTML document: styles inside, no script, nothing to fetch but the fonts the program ships. */
  html: string;
  paper: 'A4' | 'Letter';
}

/**
 * The journal on the host's disk. Refusal codes: `behind` where the sequence is not the next one, `not-writer` without a
 * valid lease, `disk` where the disk did not take it (nothing was appended), `not-available` where the host is gone.
 */
export interface JournalHost {
  /** Reads and verifies all of it. */
  open(): Promise<JournalState>;
  /** Answers once the line is written and synced. The same `key` asked again answers as the first time. */
  append(request: AppendRequest): Promise<Appended>;
  /** Whole entries from `from` on, as many as fit one answer. */
  read(request: { from: number }): Promise<JournalPage>;
  /** Which of the browser's databases belongs to it from now on. */
  setDatabase(request: { lease: string; name: string }): Promise<void>;
  /**
   * Sets the files aside, deleting nothing, and begins again with the intact entries up to `keepThrough` (0: none).
   * Answers with the new state and the folder's name.
   */
  beginAgain(request: { lease: string; keepThrough: number }): Promise<{ state: JournalState; setAside: string }>;
  /** Null where another window writes and `takeOver` is false. `onLost` is called when the right to write has ended. */
  lease(request: { takeOver: boolean }, onLost: (reason: string) => void): Promise<Lease | null>;
}

/** Snapshots of the journal, which the host makes by itself from time to time, and when it is asked. */
export interface SnapshotHost {
  list(): Promise<SnapshotList>;
  /** Null where one of this very moment is there and another one would say nothing more. */
  make(request: { why: AskedReason }): Promise<KeptSnapshot | null>;
  /** Some of its records, from the given one on. Refused where it cannot be gone by. */
  read(request: { name: string; from: number }): Promise<SnapshotPage>;
  /** What is missing was meant to go: old ones are cleared away again, or those that go further are named no more. */
  meant(request: MeantThing): Promise<void>;
  /** Asks the person for a second folder; null where the choice was put off. The browser window refuses: it names no path. */
  chooseSecond(): Promise<string | null>;
  noSecond(): Promise<void>;
}

export interface Host {
  journal: JournalHost;
  snapshots: SnapshotHost;
  info(): Promise<HostInfo>;
  /** A text file of the user's choice, or null where the choice was put off. Refuses files over `maxBytes`. */
  openText(request: { extensions: string[]; maxBytes: number }): Promise<OpenedText | null>;
  /** True once the bytes are written (browser window: handed to the browser's own download). */
  saveFile(file: FileToSave): Promise<boolean>;
  /** The document as a PDF. These bytes are shown, saved and printed; there is no second rendering. */
  makePdf(document: DocumentToPrint): Promise<Uint8Array>;
  /** Opens these very bytes where the system's print dialogue is one key away. */
  printPdf(file: { name: string; bytes: Uint8Array }): Promise<{ opened: boolean; address: string | null }>;
}
