import type { BagOuting } from '../../../../shared-types/bag.ts';
import type {
  Ledger,
  LedgerEntry,
  LedgerRow,
  LedgerTransfer,
  Secured,
  Whereabouts,
} from '../../../../shared-types/outing.ts';
import type { ResolvedPlan, ResolvedStep } from '../../plan/resolved.ts';

/**
 * Counts a finished ledger again, from its lines and the plan alone. Every fault is a sentence; none is the empty list.
 *
 * - sums: of every piece as many after each entry as at the opening
 * - lines: rows are the rows before, less what left, with what came
 * - packing: the bags are filled with what the planned bag lists; at home nothing is left in bags or hands
 * - steps: stack, hold, moves and fasteners of each step pass through its entries in full, but for what is told missing
 * - securing: each row is secured as its whereabouts allow, and what is loose is told as a problem
 *
 * @returns the faults
 * @throws nothing
 */
export function ledgerFaults(plan: ResolvedPlan, outings: readonly BagOuting[], ledger: Ledger): string[] {
  return [
    ...sumFaults(ledger),
    ...lineFaults(ledger),
    ...packingFaults(plan, outings, ledger),
    ...stepFaults(plan, outings, ledger),
    ...securingFaults(plan, ledger),
  ];
}

const nameOf = ({ outing, step, moment }: LedgerEntry): string => `${step ?? outing} ${moment}`;
const pieceOf = ({ id, kind }: Pick<LedgerRow, 'id' | 'kind'>): string => `${kind} ${id}`;
function placeOf(where: Whereabouts): string {
  switch (where.at) {
    case 'bag':
      return `bag ${where.bag ?? '?'} ${where.pouch ?? ''}`;
    case 'hand':
      return `hand ${where.role}`;
    case 'place':
      return `place ${where.place}`;
    case 'site':
      return where.loosened ? 'loosened' : 'fixed';
    default:
      return where.at;
  }
}

function sumFaults(ledger: Ledger): string[] {
  const sums = (rows: readonly LedgerRow[]): Map<string, number> =>
    added(rows.map((row) => [pieceOf(row), row.quantity]));
  const opening = sums(ledger.opening);
  return ledger.entries.flatMap((entry) =>
    differing(opening, sums(entry.rows)).map(
      ([piece, had, has]) => `${nameOf(entry)}: ${has} × ${piece}, ${had} at the opening`,
    ),
  );
}

function lineFaults(ledger: Ledger): string[] {
  const at = (row: Pick<LedgerRow, 'id' | 'kind'>, where: Whereabouts): string => `${pieceOf(row)} ${placeOf(where)}`;
  const held = (rows: readonly LedgerRow[]): Map<string, number> =>
    added(rows.map((row) => [at(row, row.where), row.quantity]));
  let before = held(ledger.opening);
  return ledger.entries.flatMap((entry) => {
    const moved = entry.transfers.flatMap((t): [string, number][] => [
      [at(t, t.from), -t.quantity],
      [at(t, t.to), t.quantity],
    ]);
    const after = held(entry.rows);
    const wrong = differing(added([...before, ...moved]), after);
    before = after;
    const none = entry.transfers
      .filter(({ quantity }) => !(quantity > 0))
      .map((t) => `${nameOf(entry)}: moves ${t.quantity} × ${t.id}`);
    return [...none, ...wrong.map(([where, due, has]) => `${nameOf(entry)}: ${has} × ${where}, ${due} by its lines`)];
  });
}

function packingFaults(plan: ResolvedPlan, outings: readonly BagOuting[], ledger: Ledger): string[] {
  return plan.outings.flatMap((outing) => {
    const own = ledger.entries.filter((entry) => entry.outing === outing.id);
    const [first, last] = [own[0], own.at(-1)];
    if (first?.moment !== 'packed' || last?.moment !== 'home')
      return [`${outing.id} is not packed first and home last`];
    const left = last.rows.filter(({ where }) => where.at === 'bag' || where.at === 'hand');
    const lost = left.map((row) => `${nameOf(last)}: ${row.quantity} × ${pieceOf(row)} not laid away`);
    const answer = outings.find(({ id }) => id === outing.id);
    if (answer === undefined) return lost;
    const listed = added(answer.items.map(({ id, bag, quantity }) => [`${id} ${bag}`, quantity]));
    const packed = added(first.transfers.map((t) => [`${t.id} ${t.to.at === 'bag' ? t.to.bag : t.to.at}`, t.quantity]));
    return [
      ...lost,
      ...differing(listed, packed).map(([line, due, has]) => `${nameOf(first)}: ${has} × ${line}, ${due} in the plan`),
    ];
  });
}

function stepFaults(plan: ResolvedPlan, outings: readonly BagOuting[], ledger: Ledger): string[] {
  const stacks = new Map(outings.flatMap(({ steps }) => steps.map((step) => [step.id, step])));
  return plan.steps.flatMap((step) => {
    const entries = ledger.entries.filter((entry) => entry.step === step.id);
    if (entries.map(({ moment }) => moment).join() !== 'begun,done') return [`${step.id} is not begun and done once`];
    const [begun, done] = [entries[0]?.transfers ?? [], entries[1]?.transfers ?? []];
    const short = (id: string, kinds: readonly string[], place?: string): number =>
      ledger.problems
        .filter(
          (p) =>
            p.step === step.id && p.id === id && kinds.includes(p.kind) && (place === undefined || p.place === place),
        )
        .filter(({ rule }) => ['not-there', 'not-packed', 'used-twice'].includes(rule))
        .reduce((sum, { quantity }) => sum + quantity, 0);
    const answer = stacks.get(step.id);
    const parts = added([...(answer?.stack ?? []), ...(answer?.hold ?? [])].map((id) => [id, 1]));
    const missing = (what: string, due: number, has: number): string[] =>
      due <= has ? [] : [`${step.id}: ${has} × ${what}, ${due} due`];
    return [
      ...[...parts].flatMap(([id, n]) => [
        ...missing(`${id} in hand`, n, short(id, ['tool']) + movedOf(begun, id, ['tool'], (t) => t.to.at === 'hand')),
        ...missing(`${id} laid away`, n, short(id, ['tool']) + movedOf(done, id, ['tool'], (t) => t.to.at === 'bag')),
      ]),
      ...gearDue(plan, step).flatMap(([id, n, to]) =>
        missing(`${id} to ${to}`, n, short(id, ['gear']) + movedOf(done, id, ['gear'], (t) => reaches(t, to))),
      ),
      ...fastenersDue(step).flatMap(([id, kind, n, from, to]) =>
        missing(
          `${kind} ${id} from ${from} to ${to}`,
          n,
          short(id, [kind]) + movedOf([...begun, ...done], id, [kind], (t) => reaches(t, to)),
        ),
      ),
    ];
  });
}

/** Gear in use comes back or is used up; what is moved gets where it is moved to. */
function gearDue(plan: ResolvedPlan, step: ResolvedStep): [string, number, string][] {
  const used = step.gear.flatMap(({ id, quantity: n }): [string, number, string][] => {
    const gear = plan.gear.get(id);
    return gear === undefined || gear.pouchPlaces > 0 ? [] : [[id, n, gear.consumed ? 'used' : 'bag']];
  });
  const moved = step.moves.flatMap(({ id, quantity: n, from, to }): [string, number, string][] => [
    [id, n, to],
    // What the same step takes on from there need not stay there.
    ...(from === 'bag' ? [] : [[id, -n, from] as [string, number, string]]),
  ]);
  return addedBy([...used, ...moved]);
}

function fastenersDue(step: ResolvedStep): [string, 'fastener' | 'washer', number, string, string][] {
  return step.fastenerMoves.flatMap(({ id, quantity: n, washers, from, to }) =>
    (
      [
        ['fastener', n],
        ['washer', washers],
      ] as const
    ).map(([kind, due]): [string, 'fastener' | 'washer', number, string, string] => [
      id,
      kind,
      due,
      from,
      to ?? 'nowhere',
    ]),
  );
}

function reaches(t: LedgerTransfer, word: string): boolean {
  const { to } = t;
  if (to.at === 'place') return to.place === word;
  return to.at === 'hand' ? to.role === word : to.at === word;
}

function securingFaults(plan: ResolvedPlan, ledger: Ledger): string[] {
  const finals = new Set(plan.source.places?.filter(({ final }) => final).map(({ id }) => id));
  const told = added(
    ledger.problems
      .filter(({ rule }) => rule === 'loose')
      .map((p) => [pieceOf({ id: p.id, kind: p.kind as LedgerRow['kind'] }), p.quantity]),
  );
  const hangs = new Set(ledger.problems.filter(({ rule }) => rule === 'no-tether-point').map(({ id }) => id));
  return ledger.entries.flatMap((entry) =>
    entry.rows.flatMap((row) => {
      const loose = row.kind === 'fastener' || row.kind === 'washer';
      const needsTether = !loose && (plan.carried.get(row.id)?.tethers ?? 0) > 0 && !hangs.has(row.id);
      const due = allowed(row.where, finals, needsTether, hangs.has(row.id));
      const wrong = due.includes(row.secured)
        ? []
        : [`${nameOf(entry)}: ${pieceOf(row)} is ${row.secured}, not ${due.join(' or ')}`];
      const untold = row.secured === 'loose' && (told.get(pieceOf(row)) ?? 0) < row.quantity;
      return untold ? [...wrong, `${nameOf(entry)}: ${row.quantity} × ${pieceOf(row)} loose and not told`] : wrong;
    }),
  );
}

function allowed(where: Whereabouts, finals: ReadonlySet<string>, tethered: boolean, either: boolean): Secured[] {
  switch (where.at) {
    case 'hand':
      return either ? ['tethered', 'held'] : [tethered ? 'tethered' : 'held'];
    case 'place':
      return [finals.has(where.place) ? 'fixed' : 'set-down'];
    case 'store':
      return ['home'];
    case 'bag':
      return ['bagged'];
    case 'site':
      return ['fixed'];
    case 'used':
      return ['used'];
    case 'nowhere':
      return ['loose'];
  }
}

function movedOf(
  transfers: readonly LedgerTransfer[],
  id: string,
  kinds: readonly string[],
  meets: (t: LedgerTransfer) => boolean,
): number {
  return transfers
    .filter((t) => t.id === id && kinds.includes(t.kind) && meets(t))
    .reduce((sum, t) => sum + t.quantity, 0);
}

function added(pairs: Iterable<readonly [string, number]>): Map<string, number> {
  const sums = new Map<string, number>();
  for (const [key, n] of pairs) sums.set(key, (sums.get(key) ?? 0) + n);
  return sums;
}

function addedBy(rows: readonly [string, number, string][]): [string, number, string][] {
  return [...added(rows.map(([id, n, to]) => [JSON.stringify([id, to]), n]))].map(([key, n]) => {
    const [id, to] = JSON.parse(key) as [string, string];
    return [id, n, to];
  });
}

function differing(due: ReadonlyMap<string, number>, has: ReadonlyMap<string, number>): [string, number, number][] {
  return [...new Set([...due.keys(), ...has.keys()])]
    .map((key): [string, number, number] => [key, due.get(key) ?? 0, has.get(key) ?? 0])
    .filter(([, a, b]) => a !== b);
}
