import type { CoursePoint, CourseProblem, PieceKind, PieceWay, Whereabouts } from '../../../shared-types/outing.ts';
import type { CourseFollowed } from '../../workers/courseMessages.ts';
import type { Schedule } from './schedule.ts';

/** A stretch of time in which a piece lies in one place. */
export interface Stay {
  where: Whereabouts;
  fromMin: number;
  toMin: number;
}

/** Pieces that go the same way over an outing: one line of the drawing. */
export interface FollowedLine {
  key: string;
  id: string;
  kind: PieceKind;
  quantity: number;
  /** Washers that go along with fasteners. */
  washers: number;
  stays: Stay[];
  /** It lies at a place, nowhere, or out of its hole: more than out of a bag and back. */
  moves: boolean;
  problems: boolean;
}

const keyOf = ({ outing, step, moment }: CoursePoint): string => JSON.stringify([outing, step, moment]);

/** Minutes of each point of an outing; a step with no place on the clock comes where it is listed. */
function minutesOf(followed: CourseFollowed, outing: string, schedule: Schedule): Map<string, number> {
  const spans = new Map(schedule.spans.map((span) => [span.step.code, span]));
  const minutes = new Map<string, number>();
  let nowMin = 0;
  for (const entry of followed.ledger.entries) {
    if (entry.outing !== outing) continue;
    const span = entry.step === null ? undefined : spans.get(entry.step);
    if (span !== undefined) nowMin = entry.moment === 'begun' ? span.startMin : span.endMin;
    if (entry.moment === 'home') nowMin = schedule.endMin;
    minutes.set(keyOf(entry), nowMin);
  }
  return minutes;
}

/** The lines of one outing: what lay out before it came, what it took along, and what moves at the site. */
export function linesOf(
  followed: CourseFollowed,
  outing: string,
  schedule: Schedule,
  problems: readonly CourseProblem[],
): FollowedLine[] {
  const index = new Map(followed.ledger.entries.map((entry, at) => [keyOf(entry), at]));
  const own = followed.ledger.entries.flatMap((entry, at) => (entry.outing === outing ? [at] : []));
  const first = own[0];
  const last = own.at(-1);
  if (first === undefined || last === undefined) return [];
  const minutes = minutesOf(followed, outing, schedule);
  const troubled = new Set(problems.map(({ id }) => id));
  const grouped = new Map<string, FollowedLine>();
  for (const way of followed.ways) {
    const stays = staysOf(way, { index, minutes, first, last, endMin: schedule.endMin });
    if (stays.length === 0) continue;
    const path = JSON.stringify([way.id, stays]);
    const line = grouped.get(path);
    const washer = way.kind === 'washer';
    if (line === undefined) {
      const { id, kind } = way;
      const found = { quantity: washer ? 0 : 1, washers: washer ? 1 : 0, problems: troubled.has(id) };
      grouped.set(path, { key: path, id, kind, stays, moves: movesIn(way.kind, stays), ...found });
    } else if (washer) line.washers += 1;
    else {
      line.quantity += 1;
      line.kind = way.kind;
    }
  }
  return [...grouped.values()].toSorted(
    (a, b) =>
      Number(b.problems) - Number(a.problems) ||
      Number(b.moves) - Number(a.moves) ||
      Number(a.kind === 'washer') - Number(b.kind === 'washer'),
  );
}

function movesIn(kind: PieceKind, stays: readonly Stay[]): boolean {
  const ofSite = kind === 'fastener' || kind === 'washer';
  return stays.some(({ where: { at } }) => at === 'place' || at === 'nowhere' || (ofSite && at !== 'site'));
}

/** Where a piece is from the outing's beginning to its end, in its minutes; none where it stays at home. */
function staysOf(
  way: PieceWay,
  x: { index: Map<string, number>; minutes: Map<string, number>; first: number; last: number; endMin: number },
): Stay[] {
  const stays: Stay[] = [];
  for (const { where, from, to } of way.intervals) {
    const begins = x.index.get(keyOf(from)) ?? -1;
    const ends = to === null ? Number.POSITIVE_INFINITY : (x.index.get(keyOf(to)) ?? Number.POSITIVE_INFINITY);
    if (ends <= x.first || begins >= x.last || where.at === 'store') continue;
    const fromMin = begins <= x.first ? 0 : (x.minutes.get(keyOf(from)) ?? 0);
    const toMin = to === null || ends >= x.last ? x.endMin : (x.minutes.get(keyOf(to)) ?? x.endMin);
    const before = stays.at(-1);
    if (before !== undefined && rowKey(before.where) === rowKey(where)) before.toMin = toMin;
    else if (toMin > fromMin || stays.length === 0 || ends > x.last) stays.push({ where, fromMin, toMin });
  }
  return stays;
}

/** Whereabouts that share a row of the drawing. */
export function rowKey(where: Whereabouts): string {
  if (where.at === 'bag') return `bag ${where.bag ?? ''}`;
  if (where.at === 'hand') return `hand ${where.role}`;
  return where.at === 'place' ? `place ${where.place}` : where.at;
}

/** What is drawn unasked: what moves or has a problem, the first of it. */
const linesUnasked = 8;

export function shownUnasked(lines: readonly FollowedLine[]): Set<string> {
  const worth = lines.filter(({ moves, problems }) => moves || problems);
  return new Set(worth.slice(0, linesUnasked).map(({ key }) => key));
}
