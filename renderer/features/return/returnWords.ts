import type { MarkState } from '../../components/StateMark/StateMark.tsx';
import { amountText, isSome, placeName, shop } from '../../engine/return/index.ts';
import type { PlannedThere, ReturnLine, ReturnState } from '../../engine/return/index.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';

/** What a line's state is called, with its shape. */
export function lineMark(line: ReturnLine, state: Pick<ReturnState, 'closed'>): { state: MarkState; text: string } {
  const { open, out, at, used, thing } = line;
  if (isSome(open)) {
    const all = open.pieces === out.pieces && open.parts === out.parts;
    if (state.closed !== null)
      return { state: 'missing', text: all ? 'Missing' : `${amountText(open, thing.parts)} missing` };
    return { state: 'out', text: all ? 'Out' : `${amountText(open, thing.parts)} out` };
  }
  if (at.some(({ how }) => how === 'left')) return { state: 'set-down', text: 'Set down' };
  if (at.some(({ place }) => place !== shop)) return { state: 'back', text: 'Back, not in the shop' };
  return isSome(used) && at.length === 0 ? { state: 'used', text: 'Used' } : { state: 'back', text: 'Back' };
}

/** What has become of a line, by place, and what the plan has of it stay. */
export function lineNote(
  line: ReturnLine,
  x: { plan: ResolvedPlan; stays: readonly PlannedThere[]; stepNumber: (code: string) => string },
): string {
  const { at, used, thing, lastSeen, open } = line;
  const said = [
    ...at.map(
      ({ how, place, ...amount }) =>
        `${amountText(amount, thing.parts)} ${how === 'left' ? 'left at' : 'back in'} ${placeName(place, x.plan)}`,
    ),
    ...(isSome(used) ? [`${amountText(used, thing.parts)} used`] : []),
    ...(thing.consumed === true && isSome(open) ? ['to be used up, or brought back'] : []),
    ...x.stays
      .filter(({ item }) => item === line.item)
      .map(
        ({ pieces, place, step }) => `planned: ${pieces} to stay at ${placeName(place, x.plan)}, ${x.stepNumber(step)}`,
      ),
    ...(isSome(open) && !lastSeen.place.endsWith('as it left')
      ? [`seen last: ${placeName(lastSeen.place, x.plan)}`]
      : []),
    ...(thing.parts > 1 ? [`${thing.parts} parts each`] : []),
    ...(line.apart ?? []).map(({ pocket, pieces }) => `${pieces} of them went in ${pocket}`),
  ];
  return said.length === 0 ? '' : `${said.join(' · ')}.`.replace(/^./, (first) => first.toUpperCase());
}

/** How far a return is, in words. */
export function totalsOf(lines: readonly ReturnLine[]): {
  out: number;
  back: number;
  left: number;
  used: number;
  open: number;
  openParts: number;
} {
  const sum = (of: (line: ReturnLine) => number): number => lines.reduce((total, line) => total + of(line), 0);
  const at = (how: 'back' | 'left') => (line: ReturnLine) =>
    line.at.filter((one) => one.how === how).reduce((total, { pieces }) => total + pieces, 0);
  return {
    out: sum(({ out }) => out.pieces),
    back: sum(at('back')),
    left: sum(at('left')),
    used: sum(({ used }) => used.pieces),
    open: sum(({ open }) => open.pieces),
    // Parts of pieces that are back without them.
    openParts: sum(({ open, thing }) => Math.max(0, open.parts - open.pieces * thing.parts)),
  };
}

export function totalsText({ left, used, open, openParts }: ReturnType<typeof totalsOf>): string {
  const count = (amount: number, one: string): string => `${amount} ${amount === 1 ? one : `${one}s`}`;
  const said = [
    ...(left === 0 ? [] : [`${left} left on purpose`]),
    ...(used === 0 ? [] : [`${used} used`]),
    open === 0 && openParts === 0
      ? 'nothing open'
      : `${[...(open === 0 ? [] : [count(open, 'piece')]), ...(openParts === 0 ? [] : [count(openParts, 'part')])].join(' and ')} open`,
  ];
  return said.join(', ');
}

/** Lines of a bag that are asked for together: of one pocket, and at most ten, since a longer run is lost count of. */
export interface ReturnChunk {
  pocket: string | null;
  /** Which lines of their pocket they are, or of their bag, from 1; and of how many. */
  from: number;
  of: number;
  lines: ReturnLine[];
}

/** A bag's lines pocket by pocket. */
export function chunksOf(lines: readonly ReturnLine[], most = 10): ReturnChunk[] {
  const pockets = new Map<string | null, ReturnLine[]>();
  for (const line of lines) {
    const pocket = line.pocket ?? null;
    pockets.set(pocket, [...(pockets.get(pocket) ?? []), line]);
  }
  return [...pockets].flatMap(([pocket, own]) =>
    Array.from({ length: Math.ceil(own.length / most) }, (_, at) => ({
      ...{ pocket, from: at * most + 1, of: own.length },
      lines: own.slice(at * most, (at + 1) * most),
    })),
  );
}
