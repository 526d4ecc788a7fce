import type { CalloutComputed, PublishedBand, PublishedLocking } from '../../../shared-types/callout.ts';
import type { HeadForm } from '../../../shared-types/plan.ts';
import { checkLimits } from '../engagement/checkLimits.ts';
import { RefusedError } from '../errors.ts';
import type { Finding } from '../../../shared-types/judged.ts';
import { lockingLimits, lockingLimitsOf, type LockingLimits } from '../locking/index.ts';
import type { ResolvedScrew } from '../preload/resolvedJoint.ts';
import { screwOf } from '../preload/read/readScrew.ts';
import { Memo } from '../sheet/index.ts';
import type { HeldHead } from '../socket/heldHead.ts';
import { headOfThread } from '../socket/index.ts';
import { nearOpenings, type NearOpening } from '../socket/near.ts';
import { readStrength, type Strength } from '../strength/index.ts';
import {
  limitsOfSize,
  readThread,
  type ExternalClass,
  type InternalClass,
  type LimitsOfSize,
  type Thread,
} from '../thread/index.ts';
import type { Unit } from '../units/index.ts';
import type { Wrench } from './wrench.ts';
import { torqueBands, type TorqueBand } from '../torqueTable/index.ts';

/** A published band with the least torque it asks for. */
export interface ComparedBand extends TorqueBand {
  /** Where a table prints a greatest allowable torque alone: the least of its standard band for the same nut. */
  floorNm: number | null;
  /** The band in words, by the unit they were asked for in. */
  words: Map<Unit, string>;
}

/** The bands of one thread and lubrication. */
export interface BandsOfThread {
  /** What they are of, as the answer lists them. */
  of: string;
  bands: readonly ComparedBand[];
}

/** What was asked for, or why nothing is held for it. */
export type Held<T> = { held: T; reason: null } | { held: null; reason: string };

/** Everything held for one thread, looked up the first time it is asked for. */
export class ThreadFacts {
  readonly thread: Thread;
  readonly screw: ResolvedScrew;
  private readonly bandsOf = new Memo<BandsOfThread>();
  private readonly strengths = new Memo<Strength>();
  private readonly shownHeads = new Memo<{ shown: CalloutComputed['head'] }>();
  private readonly shownLockings = new Memo<{ shown: CalloutComputed['locking'] }>();
  private readonly shownStrengths = new Map<Strength, CalloutComputed['strength']>();
  private readonly heads = new Memo<Held<{ head: HeldHead; near: NearOpening[] }>>();
  private readonly locked = new Memo<Held<LockingLimits>>();
  private readonly limits = new Memo<Held<LimitsOfSize>>();
  /** Findings that are the same for every callout that gets them; frozen, so that they stay so. */
  private readonly sameFindings = new Memo<{ finding: Finding | null }>();
  private everyLocking: LockingLimits[] | null = null;

  constructor(thread: Thread) {
    this.thread = thread;
    this.screw = screwOf(thread);
  }

  /** Every published band, or those whose condition holds a text, whatever its case. */
  bands(lubrication: string | null): BandsOfThread {
    const { designation } = this.thread;
    const all = this.bandsOf.get('', () => ({
      of: designation,
      bands: compared(torqueBands({ thread: this.thread })),
    }));
    if (lubrication === null) return all;
    const asked = lubrication.toLowerCase();
    return this.bandsOf.get(asked, () => ({
      of: `${designation}; ${asked}`,
      bands: all.bands.filter(({ condition }) => condition.toLowerCase().includes(asked)),
    }));
  }

  /** @throws RefusedError as readStrength does */
  strength(given: unknown, text: string): Strength {
    return this.strengths.get(text, () => readStrength(given, { thread: this.thread, field: 'strength' }));
  }

  /** A strength that was read before. */
  knownStrength(text: string): Strength | undefined {
    return this.strengths.peek(text);
  }

  head(form: HeadForm): Held<{ head: HeldHead; near: NearOpening[] }> {
    return this.heads.get(form, () =>
      held(() => {
        const head = headOfThread({ headForm: form, thread: this.thread });
        return { head, near: nearOpenings(head) };
      }),
    );
  }

  locking(document: string): Held<LockingLimits> {
    return this.locked.get(document, () => held(() => lockingLimits({ thread: this.thread, document })));
  }

  /** What every document says that has the size. */
  lockingOfAll(): readonly LockingLimits[] {
    this.everyLocking ??= lockingLimitsOf(this.thread);
    return this.everyLocking;
  }

  /** The three that follow, as a row shows them: made once, and frozen. */
  shownHead(form: HeadForm): CalloutComputed['head'] {
    return this.shownHeads.get(form, () => ({ shown: headShown(form, this.head(form).held?.head) })).shown;
  }

  shownLocking(document: string): CalloutComputed['locking'] {
    return this.shownLockings.get(document, () => {
      const named = this.locking(document).held;
      return { shown: named === null ? undefined : Object.freeze(printedLocking(named)) };
    }).shown;
  }

  shownStrength(strength: Strength): CalloutComputed['strength'] {
    const known = this.shownStrengths.get(strength) ?? strengthShown(strength);
    this.shownStrengths.set(strength, known);
    return known;
  }

  /** A finding that depends on the thread and the words of `key` alone. */
  sameFinding(key: string, make: () => Finding | null): Finding | null {
    return this.sameFindings.get(key, () => ({ finding: Object.freeze(make()) })).finding;
  }

  limitsOfSize(x: { externalClass: ExternalClass; internalClass: InternalClass }): Held<LimitsOfSize> {
    return this.limits.get(x.externalClass, () =>
      held(() => {
        const limits = limitsOfSize({ thread: this.thread, ...x });
        checkLimits({ thread: this.thread, limits });
        return limits;
      }),
    );
  }
}

/** What is held, of every thread of one table of callouts: forgotten with it. */
export class HeldFacts {
  private readonly byDesignation = new Memo<ThreadFacts>();
  /** Sizes of wrenches by what was typed. */
  readonly wrenches = new Memo<Wrench>();

  /** @throws RefusedError as readThread does */
  ofThread(designation: string): ThreadFacts {
    return this.byDesignation.get(designation, () => new ThreadFacts(readThread(designation)));
  }

  /** A thread that was read before. */
  known(designation: string): ThreadFacts | undefined {
    return this.byDesignation.peek(designation);
  }
}

/** A band as an answer lists it. */
export function printedBand({ source, condition, minNm, maxNm, tolerance, matched }: ComparedBand): PublishedBand {
  return {
    ...{ document: source.number, table: source.table, condition, minNm, maxNm },
    ...(tolerance === undefined ? {} : { tolerance }),
    matched,
  };
}

/** What one document says, without the words around it. */
export function printedLocking({ source, runningMaxNm, breakawayMinNm, reusedMinNm }: LockingLimits): PublishedLocking {
  return { document: source.number, runningMaxNm, breakawayMinNm, reusedMinNm };
}

function headShown(form: HeadForm, head: HeldHead | undefined): CalloutComputed['head'] {
  if (head === undefined) return undefined;
  const { nominal, nominalMm, citation } = head;
  return Object.freeze({ form, nominal, nominalMm, document: citation.number });
}

function strengthShown({ name, proofMPa, yieldMPa, ultimateMPa }: Strength): CalloutComputed['strength'] {
  return Object.freeze({ name, proofMPa, yieldMPa, ultimateMPa });
}

function held<T>(look: () => T): Held<T> {
  try {
    return { held: look(), reason: null };
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return { held: null, reason: error.refusal.message };
  }
}

function compared(bands: readonly TorqueBand[]): ComparedBand[] {
  return bands.map((band) => ({
    ...band,
    floorNm: band.minNm ?? standardLeastNm(band, bands),
    words: new Map(),
  }));
}

/** The least torque of the same table's standard band for the same nut: its condition begins with the same words. */
function standardLeastNm(band: TorqueBand, bands: readonly TorqueBand[]): number | null {
  const nut = band.condition.split(',', 1)[0];
  const standard = bands.find(
    (other) =>
      other.minNm !== null &&
      other.source.key === band.source.key &&
      other.printed.thread === band.printed.thread &&
      other.condition.split(',', 1)[0] === nut,
  );
  return standard?.minNm ?? null;
}
