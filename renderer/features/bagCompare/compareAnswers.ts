import type { PastAnswer } from '../../../shared-types/records/window.ts';

type Outing = PastAnswer['outings'][number];
type Line = Outing['lines'][number];

/** One item of an outing as the two answers have it: where its pieces lie, and how many. */
export interface LineDifference {
  outing: string;
  id: string;
  name: string;
  kind: 'only-one' | 'only-other' | 'quantity' | 'bag';
  one: Lying[];
  other: Lying[];
  /** Pieces and mass that the other has more; below 0: fewer, less. */
  pieces: number;
  massKg: number;
}

export interface Lying {
  bag: string;
  quantity: number;
}

/** What a bag holds in the two answers; null where it is not taken. Contents alone, without the bag itself. */
export interface BagDifference {
  outing: string;
  id: string;
  name: string;
  one: BagSum | null;
  other: BagSum | null;
}

export interface BagSum {
  pieces: number;
  contentsKg: number;
}

export interface Comparison {
  /** Lines that differ, outing by outing. */
  lines: LineDifference[];
  /** How many lines are the same in both. */
  same: number;
  bags: BagDifference[];
  /** Of all outings, bags included. */
  massKg: { one: number; other: number };
  pieces: { one: number; other: number };
}

/** Two answers of a task side by side: what only one of them packs, and what each packs elsewhere or otherwise. */
export function compareAnswers(one: PastAnswer, other: PastAnswer): Comparison {
  const outings = [...new Set([...one.outings, ...other.outings].map(({ id }) => id))];
  const pairs = outings.map((id) => ({
    id,
    a: one.outings.find((outing) => outing.id === id),
    b: other.outings.find((outing) => outing.id === id),
  }));
  const lines = pairs.flatMap(({ id, a, b }) => linesOf(id, a?.lines ?? [], b?.lines ?? []));
  return {
    lines: lines.filter((line): line is LineDifference => line.kind !== 'same'),
    same: lines.filter(({ kind }) => kind === 'same').length,
    bags: pairs.flatMap(({ id, a, b }) => bagsOf(id, a, b)),
    massKg: { one: massOf(one), other: massOf(other) },
    pieces: { one: piecesOf(one), other: piecesOf(other) },
  };
}

function linesOf(
  outing: string,
  one: readonly Line[],
  other: readonly Line[],
): (LineDifference | (Omit<LineDifference, 'kind'> & { kind: 'same' }))[] {
  const ids = [...new Set([...one, ...other].map(({ id }) => id))];
  return ids.map((id) => {
    const [a, b] = [one, other].map((lines) => lines.filter((line) => line.id === id)) as [Line[], Line[]];
    const sum = (lines: readonly Line[], each: (line: Line) => number): number =>
      lines.reduce((total, line) => total + each(line) * line.quantity, 0);
    const pieces = sum(b, () => 1) - sum(a, () => 1);
    const kind =
      b.length === 0
        ? 'only-one'
        : a.length === 0
          ? 'only-other'
          : pieces !== 0
            ? 'quantity'
            : lieAlike(a, b)
              ? 'same'
              : 'bag';
    return {
      ...{ outing, id, kind, pieces },
      name: (b[0] ?? a[0])?.name ?? id,
      one: lying(a),
      other: lying(b),
      massKg: sum(b, ({ massKg }) => massKg) - sum(a, ({ massKg }) => massKg),
    };
  });
}

const lying = (lines: readonly Line[]): Lying[] => lines.map(({ bag, quantity }) => ({ bag, quantity }));

function lieAlike(one: readonly Line[], other: readonly Line[]): boolean {
  return (
    one.length === other.length &&
    one.every(({ bag, quantity }) => other.some((line) => line.bag === bag && line.quantity === quantity))
  );
}

function bagsOf(outing: string, one: Outing | undefined, other: Outing | undefined): BagDifference[] {
  const bags = new Map([...(one?.bags ?? []), ...(other?.bags ?? [])].map((bag) => [bag.id, bag]));
  return [...bags.values()].map(({ id, name }) => ({
    ...{ outing, id, name },
    one: sumOf(one, id),
    other: sumOf(other, id),
  }));
}

function sumOf(outing: Outing | undefined, bag: string): BagSum | null {
  const lines = outing?.lines.filter((line) => line.bag === bag) ?? [];
  if (lines.length === 0) return null;
  return {
    pieces: lines.reduce((sum, { quantity }) => sum + quantity, 0),
    contentsKg: lines.reduce((sum, { quantity, massKg }) => sum + quantity * massKg, 0),
  };
}

const massOf = ({ outings }: PastAnswer): number => outings.reduce((sum, { massKg }) => sum + massKg, 0);

const piecesOf = ({ outings }: PastAnswer): number =>
  outings.reduce((sum, { lines }) => sum + lines.reduce((all, { quantity }) => all + quantity, 0), 0);
