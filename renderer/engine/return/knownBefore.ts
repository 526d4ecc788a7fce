import type { Discrepancy, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { isSome } from './amount.ts';
import type { Amount } from './amount.ts';
import { plannedBefore } from './planned.ts';
import { outingsThatLeft } from './outingsThatLeft.ts';
import { shop } from './returned.ts';
import type { ReturnLine, ReturnState } from './returned.ts';

/** Some of a thing of an earlier outing that is not in the shop. */
export interface ElsewhereLine extends Amount {
  item: string;
  name: string;
  /** Of how many parts one consists. */
  partsOfOne: number;
  /** The outing that took it along, and the number of the revision and of the event that says so. */
  outing: string;
  revision: number;
  event: number;
}

/** It lies at a place on purpose, or was counted in at one and has not come to the shop. */
export interface LiesThere extends ElsewhereLine {
  how: 'left' | 'back';
  place: string;
}

/** A discrepancy that nobody has closed, or that was closed as lost. */
export interface KnownMissing extends Amount {
  item: string;
  name: string;
  partsOfOne: number;
  /** "D-3" */
  discrepancy: number;
  outing: string;
  since: string;
  lastSeen: string;
  lost: boolean;
}

/** The plan counts on something at a place, and so much of it is not there. */
export interface NotThere {
  item: string;
  name: string;
  place: string;
  planned: number;
  lies: number;
  /** How much of it has come to the shop instead. */
  home: number;
}

/** What is known of earlier outings before another one is packed. */
export interface KnownBefore {
  lies: LiesThere[];
  /** Out with an outing whose return is not closed, and not accounted for yet. */
  out: ElsewhereLine[];
  missing: KnownMissing[];
  notThere: NotThere[];
  /** Pieces of each thing that are not in the shop, whatever the reason; a piece that lacks parts counts as there. */
  away: ReadonlyMap<string, number>;
  /** Labels of single pieces that went out and were not counted in. */
  labelsAway: ReadonlySet<string>;
}

export interface KnownRequest {
  /** Of the manifest that is about to be packed or printed. */
  plan: ResolvedPlan;
  outing: string;
  /** Key of the revision under which it is packed; null where it is not frozen yet. */
  revision: string | null;
  /** All of the task, their events and discrepancies. */
  revisions: readonly Revision[];
  events: readonly OutingEvent[];
  discrepancies: readonly Discrepancy[];
}

/**
 * What lies where, is missing, or is still out before an outing is packed, by the events of every outing that left before. Of
 * an outing that left under several revisions, each counts. Nothing is guessed: what no event says is out.
 *
 * @param request - the next manifest, and all that is kept of the task
 */
export function knownBefore(request: KnownRequest): KnownBefore {
  const { plan, outing, discrepancies } = request;
  const went = outingsThatLeft(request).filter((one) => one.revision.id !== request.revision || one.outing !== outing);
  const lines = went.flatMap(({ revision, outing: of, state }) =>
    state.lines.map((line) => ({ line, state, head: headOf(line, of, revision, state) })),
  );
  const lies = lines.flatMap(({ line, head }) =>
    line.at
      .filter(({ place }) => place !== shop)
      .map(({ how, place, pieces, parts, events }): LiesThere => ({
        ...head,
        how,
        place,
        pieces,
        parts,
        event: events.at(-1) ?? head.event,
      })),
  );
  const out = lines.flatMap(({ line, state, head }) =>
    state.closed === null && isSome(line.open) ? [{ ...head, ...line.open }] : [],
  );
  const missing = discrepancies.flatMap((one) =>
    missingOf(
      one,
      lines.map(({ line }) => line),
    ),
  );
  const away = awayOf(lines, discrepancies);
  return {
    ...{ lies, out, missing, away },
    notThere: notThereOf(
      plannedBefore(plan, outing),
      lines.map(({ line }) => line),
      plan,
    ),
    labelsAway: new Set(lines.flatMap(({ line }) => labelsAwayOf(line))),
  };
}

function headOf(line: ReturnLine, outing: string, revision: Revision, state: ReturnState): ElsewhereLine {
  return {
    ...{ item: line.item, name: line.thing.name, partsOfOne: line.thing.parts, outing, revision: revision.number },
    ...{ pieces: 0, parts: 0, event: state.issued?.no ?? 0 },
  };
}

function missingOf(one: Discrepancy, lines: readonly ReturnLine[]): KnownMissing[] {
  if (one.closed !== undefined && one.closed.how !== 'lost') return [];
  const partsOfOne = lines.find(({ item }) => item === one.item)?.thing.parts ?? 1;
  const { item, name, pieces, parts, number, outing, opened, lastSeen } = one;
  return [
    {
      ...{ item, name, pieces, parts, partsOfOne, discrepancy: number, outing, since: opened.at },
      ...{ lastSeen: lastSeen.place, lost: one.closed !== undefined },
    },
  ];
}

/** Labels that are certainly not in the shop: where pieces came back by number alone, any of the others may be among them. */
function labelsAwayOf({ out, labels, labelsBack, at }: ReturnLine): string[] {
  const inShop = at.find(({ place }) => place === shop)?.pieces ?? 0;
  const away = labels.filter((label) => labelsBack.get(label) !== shop);
  return away.length <= out.pieces - inShop ? away : [];
}

/** A piece that was miscounted never went out. */
function awayOf(lines: readonly { line: ReturnLine }[], discrepancies: readonly Discrepancy[]): Map<string, number> {
  const away = new Map<string, number>();
  const add = (item: string, pieces: number): void => void away.set(item, (away.get(item) ?? 0) + pieces);
  for (const { line } of lines) {
    const there = line.at.filter(({ place }) => place !== shop).reduce((sum, { pieces }) => sum + pieces, 0);
    add(line.item, there + line.open.pieces);
  }
  for (const { item, pieces, closed } of discrepancies) if (closed?.how === 'miscounted') add(item, -pieces);
  return new Map([...away].filter(([, pieces]) => pieces > 0));
}

function notThereOf(
  planned: ReturnType<typeof plannedBefore>,
  lines: readonly ReturnLine[],
  plan: ResolvedPlan,
): NotThere[] {
  return planned.flatMap(({ item, place, pieces }) => {
    const own = lines.filter((line) => line.item === item);
    // An outing that has not left has put nothing anywhere, and nothing says yet that it will not.
    if (own.length === 0) return [];
    const sum = (at: (line: ReturnLine) => number): number => own.reduce((total, line) => total + at(line), 0);
    const lies = sum((line) => line.at.find((one) => one.how === 'left' && one.place === place)?.pieces ?? 0);
    const inShop = sum((line) => line.at.find((one) => one.place === shop)?.pieces ?? 0);
    if (lies >= pieces) return [];
    const name = plan.carried.get(item)?.name ?? item;
    return [{ item, name, place, planned: pieces, lies, home: Math.min(inShop, pieces - lies) }];
  });
}
