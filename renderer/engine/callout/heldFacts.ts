import type { HeadForm } from '../../../shared-types/plan.ts';
import { RefusedError } from '../errors.ts';
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
import { torqueBands, type TorqueBand } from '../torqueTable/index.ts';

/** A published band with the least torque it asks for. */
export interface ComparedBand extends TorqueBand {
  /** Where a table prints a greatest allowable torque alone: the least of its standard band for the same nut. */
  floorNm: number | null;
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
  private readonly heads = new Memo<Held<{ head: HeldHead; near: NearOpening[] }>>();
  private readonly locked = new Memo<Held<LockingLimits>>();
  private readonly limits = new Memo<Held<LimitsOfSize>>();
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

  limitsOfSize(x: { externalClass: ExternalClass; internalClass: InternalClass }): Held<LimitsOfSize> {
    return this.limits.get(x.externalClass, () => held(() => limitsOfSize({ thread: this.thread, ...x })));
  }
}

/** What is held, of every thread of one table of callouts: forgotten with it. */
export class HeldFacts {
  private readonly byDesignation = new Memo<ThreadFacts>();

  /** @throws RefusedError as readThread does */
  ofThread(designation: string): ThreadFacts {
    return this.byDesignation.get(designation, () => new ThreadFacts(readThread(designation)));
  }
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
  return bands.map((band) => ({ ...band, floorNm: band.minNm ?? standardLeastNm(band, bands) }));
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
