import { saysTheSame, type Draft } from './draft.ts';
import { copiesOf, copyAt, copyName, formsKept, isKeptAs, putCopy, putText, typedAt } from './draftCopies.ts';
import type { DraftCopy, KeptDraft } from './draftCopies.ts';
import { draftsOnDisk, takeOffDisk, type DraftOnDisk } from './draftsOnDisk.ts';
import { claimWindow, openWindows, thisWindow } from './thisWindow.ts';

/** By the name of this window's own: drafts of other windows that it took over, or that were saved after all. */
const takenOver = new Map<string, readonly DraftCopy[]>();

/** Those it was done with while their windows were still open: they are offered, and not taken up by themselves again. */
const passed = new Set<string>();

const typing = (copy: DraftCopy): string => `${typedAt(copy)} ${copy.name}`;
const never = (): boolean => false;

/** Keeps the entries of this window; null: they were saved or given up. */
export function keepDraft(form: string, kept: KeptDraft | null): void {
  try {
    const own = copyName(thisWindow(), form);
    if (kept !== null || isKeptAs(own)) putCopy(own, kept);
    const taken = takenOver.get(own) ?? [];
    if (kept === null) {
      takenOver.delete(own);
      for (const copy of taken) passed.add(typing(copy));
    }
    if (taken.length > 0) letGo(taken, kept === null ? null : own).catch(() => undefined);
  } catch {
    // Without room for it the form still holds its entries.
  }
}

/** They are this window's now, kept as `own`, or nobody's. What an open one has, or has been typed on, stays. */
async function letGo(taken: readonly DraftCopy[], own: string | null): Promise<void> {
  const isOpen = await openWindows();
  // Where nothing tells which are open, what is not saved stays twice.
  if (isOpen === null && own !== null) return;
  for (const copy of taken) {
    // Meanwhile another may have been taken up in its place.
    const isOurs = own === null || takenOver.get(own)?.includes(copy) === true;
    const now = copyAt(copy.name);
    if (!isOurs || now === null || typing(now) !== typing(copy)) continue;
    if (copy.window === null || isOpen?.(copy.window) !== true) putCopy(copy.name, null);
  }
}

/** This window's own, else the newest that another one left; `isSaved` tells of which nothing is lost. */
export function keptDraft(form: string, isSaved: (draft: Draft) => boolean = never): KeptDraft | null {
  try {
    const own = copyName(thisWindow(), form);
    const copies = copiesOf(form);
    const saved = copies.filter(({ draft }) => isSaved(draft));
    const worth = copies.filter((copy) => !saved.includes(copy));
    const found = worth.find(({ name }) => name === own) ?? worth.find((copy) => !passed.has(typing(copy))) ?? null;
    const taken = [...saved, ...(found === null ? [] : [found])].filter(({ name }) => name !== own);
    const before = (takenOver.get(own) ?? []).filter(({ name }) => taken.every((copy) => copy.name !== name));
    if (taken.length > 0) takenOver.set(own, [...before, ...taken]);
    return found;
  } catch {
    return null;
  }
}

/** What other windows left of the form, and what this one has set aside. */
export function otherDrafts(form: string): DraftCopy[] {
  try {
    const own = copyName(thisWindow(), form);
    return copiesOf(form).filter(({ name }) => name !== own);
  } catch {
    return [];
  }
}

const asideSign = '.';

export const isSetAsideHere = ({ window }: DraftCopy): boolean =>
  window?.startsWith(`${thisWindow()}${asideSign}`) === true;

/** Takes another up in the place of what stands in the form, which is set aside; null where it is there no more. */
export function takeInstead(form: string, present: KeptDraft | null, other: DraftCopy): KeptDraft | null {
  try {
    const found = copyAt(other.name);
    if (found === null) return null;
    const isElsewhere = ({ draft }: DraftCopy): boolean => present !== null && saysTheSame(draft, present.draft);
    if (present !== null && !otherDrafts(form).some(isElsewhere)) {
      putCopy(copyName(`${thisWindow()}${asideSign}${crypto.randomUUID()}`, form), present);
    }
    takenOver.set(copyName(thisWindow(), form), [found]);
    // As of now, or what the browser still has on the disk would pass for the newer one.
    keepDraft(form, { draft: found.draft, at: new Date().toISOString(), typed: typedAt(found) });
    return found;
  } catch {
    return null;
  }
}

/** Of how many forms entries are kept that were not saved. */
export function draftsKept(): number {
  try {
    return formsKept().size;
  } catch {
    return 0;
  }
}

/** So long the start waits for them; what comes later comes at the next one. */
const backWithinMs = 1000;

/** Before any form is shown: what a crash kept the browser's plain storage from taking to the disk. */
export async function bringDraftsBack(): Promise<void> {
  const inTime = new Promise<DraftOnDisk[]>((resolve) => setTimeout(() => resolve([]), backWithinMs));
  const search = Promise.race([draftsOnDisk(), inTime]).catch(() => []);
  const [found] = await Promise.all([search, claimWindow()]);
  for (const draft of found) bringBack(draft);
  clearOldest().catch(() => undefined);
}

/** What plain storage has not on the disk after so long, it never will: it may come minutes after what it was told. */
const surelyThereMs = 10 * 60_000;

function bringBack({ name, text, at }: DraftOnDisk): void {
  try {
    const here = copyAt(name);
    const isNewer = here === null || here.at < at;
    if (text !== null) {
      if (isNewer) putText(name, text);
    } else if (here === null) {
      // Gone here too, and on the disk, nothing has to say so any more.
      if (Date.now() - Date.parse(at) > surelyThereMs) void takeOffDisk(name).catch(() => undefined);
    } else if (isNewer) putCopy(name, null);
  } catch {
    // As above.
  }
}

/** So many of one form, or nobody would ever look at the rest. */
const mostOfOneForm = 12;

async function clearOldest(): Promise<void> {
  const isOpen = await openWindows();
  for (const form of formsKept()) {
    for (const { name, window } of copiesOf(form).slice(mostOfOneForm)) {
      if (window === null || isOpen?.(window) !== true) putCopy(name, null);
    }
  }
}
