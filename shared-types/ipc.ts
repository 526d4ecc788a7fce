/**
 * What crosses between the page and the program around it: the names of the channels, and the shape each argument must
 * have. The preload script and the browser window's page speak these; both hosts check them before anything else.
 */
import type { Refusal } from './errors.ts';
import type { DocumentToPrint, FileToSave, HostInfo, OpenedText } from './host.ts';
import {
  appendRequestSchema,
  leaseIdSchema,
  type Appended,
  type AppendRequest,
  type JournalPage,
  type JournalState,
} from './journal.ts';
import { z } from './schema.ts';
import {
  snapshotRequests,
  type AskedReason,
  type KeptSnapshot,
  type MeantThing,
  type SnapshotList,
  type SnapshotPage,
} from './snapshot.ts';

const mediaTypes = [
  'application/json',
  'text/csv',
  'application/pdf',
  'text/plain',
  'image/svg+xml',
  'image/png',
  'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
] as const;

/** No body, file or document of more bytes is taken by either host. */
export const largestBodyBytes = 64 * 1024 * 1024;

const longestName = 1_000;
const bytes = z
  .instanceof(Uint8Array)
  .refine((value) => value.byteLength <= largestBodyBytes, 'more bytes than the program takes (64 MB)');

const openTextRequest = z.strictObject({
  extensions: z
    .array(z.string().regex(/^\.?[a-z0-9]{1,10}$/i, 'not a file ending'))
    .min(1)
    .max(10),
  maxBytes: z.int().min(1).max(largestBodyBytes),
});

const fileToSave = z.strictObject({
  name: z.string().min(1).max(longestName),
  mediaType: z.enum(mediaTypes),
  bytes,
});

export const documentToPrint = z.strictObject({
  title: z.string().max(longestName),
  html: z.string().min(1).max(largestBodyBytes),
  paper: z.enum(['A4', 'Letter']),
});

export const pdfToPrint = z.strictObject({
  name: z.string().min(1).max(longestName),
  bytes: bytes.refine(
    (value) => value.length > 4 && String.fromCharCode(...value.subarray(0, 5)) === '%PDF-',
    'not a PDF document',
  ),
});

/** What may be asked of the journal, by the same names on both hosts. `open` asks nothing. */
export const journalRequests = {
  append: appendRequestSchema,
  read: z.strictObject({ from: z.int().min(1) }),
  setDatabase: z.strictObject({
    lease: leaseIdSchema,
    name: z.string().regex(/^[A-Za-z0-9][\w.-]{0,99}$/, 'not a name of a database'),
  }),
  beginAgain: z.strictObject({ lease: leaseIdSchema, keepThrough: z.int().min(0) }),
  lease: z.strictObject({ takeOver: z.boolean() }),
} as const;

/** The arguments of each channel. A channel that is not listed here does not exist. */
export const channelArguments = {
  info: z.tuple([]),
  openText: z.tuple([openTextRequest]),
  saveFile: z.tuple([fileToSave]),
  makePdf: z.tuple([documentToPrint]),
  printPdf: z.tuple([pdfToPrint]),
  journalOpen: z.tuple([]),
  journalAppend: z.tuple([journalRequests.append]),
  journalRead: z.tuple([journalRequests.read]),
  journalSetDatabase: z.tuple([journalRequests.setDatabase]),
  journalBeginAgain: z.tuple([journalRequests.beginAgain]),
  journalLease: z.tuple([journalRequests.lease]),
  journalEndLease: z.tuple([leaseIdSchema]),
  snapshotsList: z.tuple([]),
  snapshotsMake: z.tuple([snapshotRequests.make]),
  snapshotsRead: z.tuple([snapshotRequests.read]),
  snapshotsMeant: z.tuple([snapshotRequests.meant]),
  snapshotsChooseSecond: z.tuple([]),
  snapshotsNoSecond: z.tuple([]),
} as const;

export type Channel = keyof typeof channelArguments;

export interface PrintOutcome {
  opened: boolean;
  address: string | null;
}

/** An answer or a refusal: exceptions lose their fields on the way between processes, plain values do not. */
export type Answer<T> = { ok: true; value: T } | { ok: false; refusal: Refusal };

/** The one message that comes unasked, by the name `leaseLost`: the right to write has ended. */
export interface LeaseLost {
  lease: string;
  reason: string;
}

/** What the loopback server says on the answer it holds open: first the one, later perhaps the other. */
export type LeaseLine = { lease: string | null } | { lost: string };

export interface BeganAgain {
  state: JournalState;
  setAside: string;
}

/** What the preload script puts into the page, whole. */
export interface Bridge {
  info(): Promise<Answer<HostInfo>>;
  openText(request: { extensions: string[]; maxBytes: number }): Promise<Answer<OpenedText | null>>;
  saveFile(file: FileToSave): Promise<Answer<boolean>>;
  makePdf(document: DocumentToPrint): Promise<Answer<Uint8Array>>;
  printPdf(file: { name: string; bytes: Uint8Array }): Promise<Answer<PrintOutcome>>;
  journalOpen(): Promise<Answer<JournalState>>;
  journalAppend(request: AppendRequest): Promise<Answer<Appended>>;
  journalRead(request: { from: number }): Promise<Answer<JournalPage>>;
  journalSetDatabase(request: { lease: string; name: string }): Promise<Answer<void>>;
  journalBeginAgain(request: { lease: string; keepThrough: number }): Promise<Answer<BeganAgain>>;
  journalLease(request: { takeOver: boolean }): Promise<Answer<string | null>>;
  journalEndLease(lease: string): Promise<Answer<void>>;
  snapshotsList(): Promise<Answer<SnapshotList>>;
  snapshotsMake(request: { why: AskedReason }): Promise<Answer<KeptSnapshot | null>>;
  snapshotsRead(request: { name: string; from: number }): Promise<Answer<SnapshotPage>>;
  snapshotsMeant(request: MeantThing): Promise<Answer<void>>;
  snapshotsChooseSecond(): Promise<Answer<string | null>>;
  snapshotsNoSecond(): Promise<Answer<void>>;
  onLeaseLost(listener: (lost: LeaseLost) => void): void;
}

/** The loopback server's one door for the page's calls, and the headers that go with them. */
export const api = {
  info: '/api/info',
  pdf: '/api/pdf',
  print: '/api/print',
  hello: '/api/hello',
  journalOpen: '/api/journal/open',
  journalAppend: '/api/journal/append',
  journalRead: '/api/journal/read',
  journalSetDatabase: '/api/journal/database',
  journalBeginAgain: '/api/journal/begin-again',
  journalLease: '/api/journal/lease',
  snapshotsList: '/api/snapshots/list',
  snapshotsMake: '/api/snapshots/make',
  snapshotsRead: '/api/snapshots/read',
  snapshotsMeant: '/api/snapshots/meant',
  snapshotsNoSecond: '/api/snapshots/no-second',
  tokenHeader: 'x-bagwright-token',
  nameHeader: 'x-bagwright-file-name',
} as const;

export const identity = {
  scheme: 'app',
  host: 'bagwright',
  /** The database belongs to the origin, so neither of these may ever change. */
  electronOrigin: 'app://bagwright',
  browserPort: 47811,
  browserOrigin: 'http://127.0.0.1:47811',
} as const;

/** The first thing wrong with an argument, said as a refusal. The value itself is not repeated: it may be anything. */
export function argumentRefusal(error: z.ZodError): Refusal {
  const first = error.issues[0];
  const field = first === undefined ? '' : first.path.map(String).join('.');
  return {
    code: 'wrong-shape',
    message: `The program was asked with a wrong argument${field === '' ? '' : ` (${field})`}: ${first?.message ?? 'unknown'}`,
    ...(field === '' ? {} : { field }),
  };
}
