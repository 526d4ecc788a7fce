/** Every table of the database with the schema of its records. A record passes its schema on every way in. */
import type { z } from '../schema.ts';
import { itemRecord, shelfRecord } from './item.ts';
import { noteRecord } from './note.ts';
import { asRunListRecord, asRunRecord, calloutListRecord, calloutRecord } from './judgedLists.ts';
import { discrepancyRecord, eventRecord, revisionRecord } from './revision.ts';
import { interfaceRecord, siteRecord } from './site.ts';
import { outingRecord, stepRecord, taskRecord } from './task.ts';
import { watchOutRecord } from './watchOut.ts';
import { preferencesRecord, resultRecord } from './window.ts';

/** Version of the records' shapes. A change of any of them is a new version with its own way over. */
export const recordsVersion = 6;

export const recordSchemas = {
  shelves: shelfRecord,
  items: itemRecord,
  sites: siteRecord,
  interfaces: interfaceRecord,
  tasks: taskRecord,
  outings: outingRecord,
  steps: stepRecord,
  results: resultRecord,
  notes: noteRecord,
  preferences: preferencesRecord,
  calloutLists: calloutListRecord,
  callouts: calloutRecord,
  asRunLists: asRunListRecord,
  asRuns: asRunRecord,
  watchOuts: watchOutRecord,
  revisions: revisionRecord,
  events: eventRecord,
  discrepancies: discrepancyRecord,
} as const;

export type TableName = keyof typeof recordSchemas;
export type RecordOf<T extends TableName> = z.infer<(typeof recordSchemas)[T]>;
export type AnyRecord = RecordOf<TableName>;
export const tableNames = Object.keys(recordSchemas) as TableName[];
export type Counts = Record<TableName, number>;
