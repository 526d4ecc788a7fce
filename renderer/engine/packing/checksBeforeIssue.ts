import type { Frozen } from '../frozen/index.ts';
import { amountText } from './amount.ts';
import type { IssueCheck } from './issueCheck.ts';
import { limitChecks } from './limitChecks.ts';
import type { PackedBag, PackedLine, PackState } from './packState.ts';
import { secondCountFaults } from './standsOf.ts';
import { stepsShort } from './stepsShort.ts';
import { calibrationChecks, rangeShareOf, settingChecks } from './toolChecks.ts';
import type { ToolFacts } from './toolChecks.ts';

/**
 * Everything that is looked at before an outing's bags leave, each with what there is and what is needed.
 *
 * What was closed short with a reason and a second name is noted, and keeps nothing back unless a step loses its stack by it.
 *
 * @param frozen - the manifest, read
 * @param state - the outing as it is packed
 * @param tools - the day of the outing, the catalog and what was found out of torque tools
 * @returns counting, pieces, limits, calibration, settings, in this order
 */
export function checksBeforeIssue(
  frozen: Pick<Frozen, 'plan' | 'result' | 'thing'>,
  state: PackState,
  tools: ToolFacts,
): IssueCheck[] {
  const { plan, result } = frozen;
  const answer = result.outings.find(({ id }) => id === state.outing);
  const taken = new Set(
    state.bags.flatMap(({ lines }) => lines.flatMap(({ line, counted }) => (counted.pieces > 0 ? [line.item] : []))),
  );
  const torqueTools = [...taken].map(frozen.thing).filter(({ kind }) => kind === 'torque-tool');
  return [
    ...state.bags.flatMap(countingChecks),
    ...state.bags.flatMap((bag) => secondChecks(state, bag)),
    ...state.bags.flatMap(pieceChecks),
    ...(answer === undefined ? [] : stepChecks(frozen, state)),
    ...limitChecks(plan, state.bags),
    ...calibrationChecks(torqueTools, tools),
    ...(answer === undefined ? [] : settingChecks(plan, answer, rangeShareOf(plan))),
  ];
}

function countingChecks({ id: bag, closed, totals }: PackedBag): IssueCheck[] {
  const open = totals.open === 0 ? '' : `, ${totals.open} to pack`;
  return [
    {
      ...{ about: 'counting', bag, what: `Bag ${bag}: closed`, need: 'closed' },
      have:
        closed === null ? `open, ${totals.packed} of ${totals.pieces} packed${open}` : `closed by ${closed.by.name}`,
      state: closed === null ? 'blocks' : 'holds',
    },
  ];
}

function secondChecks({ fold }: PackState, { id: bag, second, lines }: PackedBag): IssueCheck[] {
  const faults = secondCountFaults(fold, bag);
  const by = [...new Set(lines.flatMap((line) => line.second?.by.name ?? []))];
  const [first] = faults;
  const more = faults.length > 1 ? `; ${faults.length - 1} more` : '';
  return [
    {
      ...{
        about: 'counting',
        bag,
        what: `Bag ${bag}: counted again`,
        need: 'every line, by another person, to the same number',
      },
      have: second === 'none' ? 'by nobody' : first === undefined ? `the same, by ${by.join(', ')}` : `${first}${more}`,
      state: first === undefined ? 'holds' : 'blocks',
    },
  ];
}

/** Lines that leave short: allowed where the bag was closed so, with a reason and a second name. */
function pieceChecks({ id: bag, lines, closed }: PackedBag): IssueCheck[] {
  const named = closed?.second !== undefined && closed.reason !== undefined;
  const why = named ? `; closed so: ${closed.reason}, with ${closed.second?.name}` : '';
  return lines.flatMap(({ line, thing, counted, open, missing }: PackedLine): IssueCheck[] => {
    // Of an open bag it is said how much is still to pack; what is named missing is told of either.
    if (missing.parts === 0 && (open.parts === 0 || closed === null)) return [];
    return [
      {
        ...{ about: 'pieces', bag, item: line.item, what: `${line.item} in ${bag}` },
        have: `${amountText(counted, thing.parts)}${why}`,
        need: amountText({ pieces: line.quantity, parts: line.quantity * thing.parts }, thing.parts),
        state: named ? 'noted' : 'blocks',
      },
    ];
  });
}

function stepChecks({ plan, result }: Pick<Frozen, 'plan' | 'result'>, state: PackState): IssueCheck[] {
  const answer = result.outings.find(({ id }) => id === state.outing);
  if (answer === undefined) return [];
  const everyStep = {
    about: 'pieces' as const,
    what: 'Every step’s stack and gear',
    need: 'whole, in bags within its reach',
  };
  if (state.bags.some(({ closed }) => closed === null))
    return [{ ...everyStep, have: 'not known before every bag is closed', state: 'blocks' }];
  const inBags = state.bags.flatMap(({ id: bag, lines }) =>
    lines.map(({ line, thing, counted }) => ({ bag, item: line.item, pieces: wholePieces(counted, thing.parts) })),
  );
  const short = stepsShort(plan, answer, inBags);
  if (short.length === 0) return [{ ...everyStep, have: everyStep.need, state: 'holds' }];
  return short.map(({ step, item, have, need, slot }) => ({
    ...{ about: 'pieces', what: `Step ${step} loses ${item}`, item, steps: [step], state: 'blocks' },
    have: `${have} whole within its reach`,
    need: slot === undefined ? `${need}` : `${need}, with the others of slot ${slot}`,
  }));
}

/** Whole ones at the least: each part that is short may be of another piece. */
function wholePieces({ pieces, parts }: { pieces: number; parts: number }, partsEach: number): number {
  return Math.max(0, pieces - (pieces * partsEach - parts));
}
