import type { Refusal } from '../../../shared-types/errors.ts';
import { recordFileMark } from '../../../shared-types/recordFile.ts';
import type { RecordFile } from '../../../shared-types/recordFile.ts';
import type { Revision } from '../../../shared-types/records/revision.ts';
import { RefusedError } from '../../engine/errors.ts';
import { readFrozen } from '../../engine/frozen/index.ts';
import { readPlanFile } from '../../engine/records/readPlanFile.ts';
import { mergeOfPlan } from '../../engine/records/mergeOfPlan.ts';
import type { KeptWork, PlanPut } from '../../engine/records/mergeOfPlan.ts';
import { intoKept } from '../../engine/record/intoKept.ts';
import type { Brought, KeptRecords } from '../../engine/record/intoKept.ts';
import { readRecordFile, recordFileFault } from '../../engine/record/recordFile.ts';
import { tagClashes } from '../../engine/record/tagClashes.ts';
import type { TagClash } from '../../engine/record/tagClashes.ts';
import { freeTags } from '../../engine/tag/index.ts';
import { givenTags } from '../labels/giveLabels.ts';
import { sha256 } from '../../store/sha256.ts';
import { refusalOf } from '../../store/session.ts';
import type { Act, Proposal } from '../../store/store.ts';
import { countOf } from '../steps/words.ts';

/** Whether a file is a manifest with its record, by its first words alone: such a one is brought in as that. */
export function isRecordFile(text: string): boolean {
  return text
    .slice(0, 200)
    .replaceAll(/\s/g, '')
    .includes(`"bagwright":${JSON.stringify(recordFileMark).replaceAll(' ', '')}`);
}

/** A file at the door: verified whole, or why it is not taken. */
export type VerifiedFile = { kind: 'whole'; file: RecordFile } | { kind: 'refused'; refusal: Refusal };

/** Reads and verifies a file; a broken one names the number of the first fault and its line. */
export async function verifiedFile({ name, text }: { name: string; text: string }): Promise<VerifiedFile> {
  try {
    const file = readRecordFile(text, name);
    const fault = await recordFileFault(file, sha256, { text });
    if (fault !== null)
      throw new RefusedError({
        code: 'contradiction',
        message: `${fault.no === 0 ? 'The manifest' : `Event ${fault.no}`}: ${fault.reason}`,
        file: name,
        ...(fault.row === undefined ? {} : { row: fault.row }),
      });
    // Its plan must be one that can be shown and printed here.
    readFrozen({ ...file.revision });
    return { kind: 'whole', file };
  } catch (error) {
    return { kind: 'refused', refusal: refusalOf(error) };
  }
}

/** What bringing it in does, in one act; or why it does nothing. */
export type BringingIn =
  | { kind: 'refused'; reason: string }
  | { kind: 'same'; task: string }
  | {
      kind: 'act';
      act: Act;
      task: string;
      words: string[];
      newTask: boolean;
      /** Label numbers that name another thing here: somebody says what becomes of them. */
      clashes: readonly TagClash[];
      /** Numbers given anew, where that was chosen. */
      renumbered: readonly Renumbered[];
    };

/** What becomes of label numbers that name another thing here: theirs are given anew, or both stay. */
export type ClashWay = 'renumber' | 'keep';

type Renumbered = NonNullable<NonNullable<Revision['broughtIn']>['renumbered']>[number];

/**
 * Holds a verified file against what is kept. It goes to the task that has its revision, else to the one with its task's code, else its
 * plan comes in as a task of its own.
 */
export function bringingIn(
  { name, file }: { name: string; file: RecordFile },
  kept: KeptRecords & KeptWork,
  x: { broughtIn: NonNullable<Revision['broughtIn']>; newId: () => string; clashWay?: ClashWay | null },
): BringingIn {
  const { plan } = readPlanFile(file.revision.content.planText, `Revision ${file.revision.number}`);
  const own = kept.revisions.find(({ id }) => id === file.revision.id)?.task;
  const known = own ?? kept.tasks.find(({ code }) => code === plan.task?.id)?.id;
  const merge =
    known === undefined
      ? mergeOfPlan(kept, plan, {
          ...{ shelf: null, task: null, differing: 'keep', newId: x.newId },
          ...{
            shelfName: (plan.task?.name ?? file.revision.called).slice(0, 200),
            taskNamed: file.revision.called.slice(0, 200),
          },
        })
      : null;
  const task = known ?? merge?.result?.id;
  if (task === undefined) return { kind: 'refused', reason: 'Its plan names no task that it could belong to' };
  const isKept = own !== undefined;
  const { things } = file.revision.content;
  const clashes = isKept ? [] : tagClashes({ id: file.revision.id, things }, kept);
  const labels = labelsIn(file, kept, { clashes, way: x.clashWay ?? null, task: known, puts: merge?.puts ?? [] });
  const { renumbered } = labels;
  const into = intoKept(file, kept, {
    task,
    broughtIn: { ...x.broughtIn, ...(renumbered.length === 0 ? {} : { renumbered }) },
  });
  if (into.kind === 'refused') return into;
  if (into.kind === 'same') return { kind: 'same', task };
  const { brought } = into;
  return {
    kind: 'act',
    task,
    newTask: merge !== null,
    ...{ clashes, renumbered },
    words: wordsOf(brought, merge !== null),
    act: {
      action: 'bring-record-in',
      title: `Bring in ${name}`.slice(0, 2000),
      // Frozen manifests and events are never taken away again, and so neither is what they came with.
      undoable: false,
      proposals: [...labels.puts, ...proposalsOf(brought)],
    },
  };
}

/**
 * The numbers that the things of a manifest get here. What comes new to the catalog takes its own along, unless that names another thing; a
 * thing of the task that has a number already keeps it, and the manifest's is read as that one.
 */
function labelsIn(
  { revision }: RecordFile,
  kept: KeptRecords & KeptWork,
  x: { clashes: readonly TagClash[]; way: ClashWay | null; task: string | undefined; puts: readonly PlanPut[] },
): { puts: Proposal[]; renumbered: Renumbered[] } {
  const { things } = revision.content;
  const clashing = new Map(x.clashes.map((clash) => [clash.theirs.id, clash.tag]));
  const shelves = new Set(kept.tasks.find(({ id }) => id === x.task)?.shelves);
  const ours = new Map(kept.items.flatMap((item) => (shelves.has(item.shelf) ? [[item.code, item]] : [])));
  const wanted = x.way === 'renumber' ? [...clashing.keys()].filter((code) => ours.get(code)?.tag === undefined) : [];
  const given = [...givenTags(kept.items, kept.revisions), ...things.flatMap(({ tag }) => tag ?? [])];
  const fresh = new Map(freeTags(given, wanted.length).map((tag, at) => [wanted[at] ?? '', tag]));
  const renumbered =
    x.way === 'renumber'
      ? [...clashing].flatMap(([thing, was]): Renumbered[] => {
          const is = ours.get(thing)?.tag ?? fresh.get(thing);
          return is === undefined ? [] : [{ thing, was, is }];
        })
      : [];
  const tagOf = new Map(
    things.flatMap(({ id, tag }) => {
      const own = fresh.get(id) ?? (clashing.has(id) ? undefined : tag);
      return own === undefined ? [] : [[id, own]];
    }),
  );
  const puts = x.puts.map((proposal): Proposal => {
    const tag = proposal.table === 'items' ? tagOf.get(proposal.put.code) : undefined;
    return proposal.table === 'items' && tag !== undefined && proposal.put.tag === undefined
      ? { table: 'items', put: { ...proposal.put, tag } }
      : proposal;
  });
  const coming = new Set(x.puts.flatMap((one) => (one.table === 'items' ? [one.put.code] : [])));
  const numbered = [...fresh].flatMap(([code, tag]): Proposal[] => {
    const item = ours.get(code);
    return item === undefined || coming.has(code) ? [] : [{ table: 'items', put: { ...item, tag } }];
  });
  return { puts: [...puts, ...numbered], renumbered };
}

function proposalsOf({ revision, events, discrepancies }: Brought): Proposal[] {
  return [
    ...(revision === null ? [] : [{ table: 'revisions' as const, put: revision }]),
    ...events.map((put) => ({ table: 'events' as const, put })),
    ...discrepancies.map((put) => ({ table: 'discrepancies' as const, put })),
  ];
}

function wordsOf({ revision, events, discrepancies }: Brought, newTask: boolean): string[] {
  return [
    ...(newTask ? ['its task with its catalog'] : []),
    ...(revision === null ? [] : [`revision ${revision.number}`]),
    ...(events.length === 0 ? [] : [countOf(events.length, 'event')]),
    ...(discrepancies.length === 0 ? [] : [countOf(discrepancies.length, 'discrepancy', 'discrepancies')]),
  ];
}
