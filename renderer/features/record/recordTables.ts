import type { Discrepancy, OutingEvent, RevisionContent } from '../../../shared-types/records/revision.ts';
import type { Cell } from '../report/tableFile.ts';
import { clockWentBack, deedText, outingText, thingText } from './deedWords.ts';
import type { Called } from './deedWords.ts';

interface Table {
  columns: readonly string[];
  rows: Cell[][];
}

/** Lines of a frozen manifest as a table. */
export function lineTable({ lines, things }: RevisionContent): Table {
  const byCode = new Map(things.map((thing) => [thing.id, thing]));
  return {
    columns: [
      'outing',
      'bag',
      'item',
      'name',
      'pieces',
      'partsOfOne',
      'pocket',
      'serial',
      'calibrationDue',
      'label',
      'because',
    ],
    rows: lines.map(({ outing, bag, item, quantity, pocket, because }) => {
      const thing = byCode.get(item);
      return [
        ...[outing, bag, item, thing?.name ?? null, quantity, thing?.parts ?? null, pocket ?? null],
        ...[thing?.serial ?? null, thing?.calibrationDue ?? null, thing?.tag ?? null, because.join(' ')],
      ];
    }),
  };
}

/** Events of a revision as a table, in their order, each in words too. */
export function eventTable(events: readonly OutingEvent[], called: Called): Table {
  const wentBack = clockWentBack(events);
  return {
    columns: [
      ...[
        'number',
        'clock',
        'clockWentBack',
        'name',
        'role',
        'outing',
        'kind',
        'bag',
        'item',
        'pieces',
        'parts',
        'place',
      ],
      ...['label', 'takesBack', 'words', 'hash'],
    ],
    rows: events.map(({ no, at, by, outing, deed, hash }) => {
      const held: Partial<Record<string, unknown>> = deed;
      const cell = (name: string): Cell => {
        const value = held[name];
        return typeof value === 'string' || typeof value === 'number' ? value : null;
      };
      return [
        ...[no, at, wentBack.has(no) ? 'yes' : null, by.name, by.role, outing, deed.kind],
        ...['bag', 'item', 'pieces', 'parts', 'place', 'label', 'of'].map(cell),
        ...[deedText(deed, called), hash],
      ];
    }),
  };
}

export const howWords = {
  found: 'found',
  lost: 'given up as lost',
  miscounted: 'miscounted: it never went out',
  spent: 'spent at the work site',
  'left-there': 'left there on purpose',
} as const satisfies Record<NonNullable<Discrepancy['closed']>['how'], string>;

/** Discrepancies as a table, by their numbers. */
export function discrepancyTable(
  discrepancies: readonly Discrepancy[],
  x: { taskOf: (one: Discrepancy) => string; revisionOf: (one: Discrepancy) => number | null },
): Table {
  return {
    columns: [
      ...['task', 'number', 'revision', 'outing', 'bag', 'item', 'name', 'pieces', 'parts', 'openedAt', 'openedBy'],
      ...['lastSeen', 'lastSeenAt', 'words', 'closed', 'closedAt', 'closedBy', 'closedWords'],
    ],
    rows: discrepancies.map((one) => [
      ...[x.taskOf(one), `D-${one.number}`, x.revisionOf(one), one.outing, one.bag, one.item, one.name],
      ...[one.pieces, one.parts, one.opened.at, `${one.opened.by.name}, ${one.opened.by.role}`],
      ...[one.lastSeen.place, one.lastSeen.at ?? null, one.words ?? null, one.closed?.how ?? null],
      ...[one.closed?.at ?? null, one.closed === undefined ? null : `${one.closed.by.name}, ${one.closed.by.role}`],
      one.closed?.words ?? null,
    ]),
  };
}

/** What an outing and a line of a discrepancy are called where its revision is at hand. */
export function discrepancyNames(
  one: Discrepancy,
  called: Called | null,
): { outing: string; thing: string; bag: string } {
  if (called === null) return { outing: one.outing, thing: `${one.item} ${one.name}`, bag: one.bag };
  return {
    outing: outingText(called, one.outing),
    thing: thingText(called, one.item),
    bag: thingText(called, one.bag),
  };
}
