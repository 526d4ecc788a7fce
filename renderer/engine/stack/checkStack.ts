import type { CheckName } from '../../../shared-types/bag.ts';
import { squareName } from '../plan/squares.ts';
import { openingGoesOnHead } from '../socket/index.ts';
import { atLeast, atMost } from '../tolerance.ts';
import type { StackCheck } from './judged.ts';
import type { Measured } from './measured.ts';
import { marginText, spareOver } from './measured.ts';
import { apart, shownAngle, shownHead, shownLength, shownOpening, shownPieces } from './shown.ts';
import { narrowestOnTheWay } from './stretches.ts';
import type { StackParts, StackTask } from './stackTask.ts';
import { stackIds, stackLengthMm, stepAngleDeg } from './stackTask.ts';
import { accuracy, strength } from './torqueChecks.ts';

/** A check with what it lacks: 0 where it passes. Orders closest fits. */
export interface MeasuredCheck extends StackCheck {
  /** In the check's own unit. */
  shortfall: number;
  /**
   * As a share of what is asked, so that checks of different units compare. What is so or not (a square, an opening,
   * a joint, a piece that is there) is wholly missed, 1; by how much orders those among themselves alone.
   */
  shareShort: number;
}

/**
 * Every rule of a stack, one by one, on finished parts. It shares no search with `enumerateStacks`, which gives up
 * at the first rule broken; what that search finds is held against this.
 */
export function checkStack(task: StackTask, parts: StackParts): MeasuredCheck[] {
  const checks: [CheckName, Measured | null][] = [
    ['drive', drives(parts)],
    ['opening', opening(task, parts)],
    ['reach', reach(task, parts)],
    ['clearance', clearance(task, parts)],
    ['strength', strength(task, parts)],
    ['accuracy', accuracy(task, parts)],
    ['universal', universals(task, parts)],
    ['swing', swing(task, parts)],
    ['swing', handleRoom(task, parts)],
    ['protrusion', protrusion(task, parts)],
    ...stock(parts).map((short): [CheckName, Measured] => ['stock', short]),
  ];
  return checks.flatMap(([check, measured]) => {
    if (!measured) return [];
    const { passes, have, need, margin, spare, asked } = measured;
    const shortfall = passes ? 0 : Math.max(-spare, Number.MIN_VALUE);
    return [{ check, passes, have, need, margin, shortfall, shareShort: share(shortfall, asked) }];
  });
}

/** More than any difference of sizes in millimetres, so that it moves a whole miss by less than another whole one. */
const farOff = 1e6;

function share(shortfall: number, asked: number | null): number {
  if (shortfall === 0) return 0;
  return asked === null || asked === 0 ? 1 + shortfall / farOff : shortfall / asked;
}

function drives({ tool, extensions, socket }: StackParts): Measured {
  const males = [tool.driveMm, ...extensions.map((e) => e.driveOutMm)];
  const females = [...extensions.map((e) => e.driveInMm), socket.driveMm];
  const off = males.flatMap((male, index) => {
    const female = females[index];
    return female === undefined || male === female ? [] : [{ male, female }];
  });
  const shown = off[0] ?? { male: tool.driveMm, female: tool.driveMm };
  return {
    passes: off.length === 0,
    have: `${squareName(shown.male)} male`,
    need: `${squareName(shown.female)} male`,
    spare: -off.reduce((sum, { male, female }) => sum + Math.abs(male - female), 0),
    asked: null,
    margin: off.length === 0 ? 'every square meets its like' : `${off.length} of ${males.length} joints do not meet`,
  };
}

function opening({ fastener }: StackTask, { socket }: StackParts): Measured {
  const { headForm, acrossFlats } = fastener;
  const { openingForm, size } = socket;
  const passes = openingGoesOnHead({ headForm, acrossFlats, openingForm, size });
  const off = 'mm' in size && 'mm' in acrossFlats ? Math.abs(size.mm - acrossFlats.mm) : 0;
  // An opening of another form is further off than any size of the right form.
  const formOff = openingGoesOnHead({ headForm, acrossFlats, openingForm, size: acrossFlats }) ? 0 : 1000;
  return {
    passes,
    have: shownOpening(openingForm, size),
    need: `for ${shownHead(headForm, acrossFlats)}`,
    spare: -(off + formOff),
    asked: null,
    margin: passes ? 'same nominal size' : 'does not go on',
  };
}

function reach({ access, shown }: StackTask, parts: StackParts): Measured {
  const lengthMm = stackLengthMm(parts);
  const spare = spareOver(lengthMm, access.depthMm);
  const [have, need] = apart(lengthMm, access.depthMm, (mm, digits) => shownLength(mm, shown, digits));
  return {
    passes: atLeast(lengthMm, access.depthMm),
    have,
    need,
    spare,
    asked: access.depthMm,
    margin: marginText(spare, (mm) => shownLength(mm, shown)),
  };
}

function clearance({ access, shown }: StackTask, { extensions, socket }: StackParts): Measured | null {
  let beginMm = 0;
  let tightest: { widestMm: number; clearMm: number; fromMm: number } | null = null;
  for (const { outsideDiameterMm, lengthMm } of [socket, ...extensions.toReversed()]) {
    const way = narrowestOnTheWay(access, beginMm);
    beginMm += lengthMm;
    if (way === null) continue;
    const isTighter = tightest === null || way.clearMm - outsideDiameterMm < tightest.clearMm - tightest.widestMm;
    if (isTighter) tightest = { widestMm: outsideDiameterMm, ...way };
  }
  if (tightest === null) return null;
  const { widestMm, clearMm, fromMm } = tightest;
  const spare = spareOver(clearMm, widestMm);
  const [have, need] = apart(widestMm, clearMm, (mm, digits) => `⌀ ${shownLength(mm, shown, digits)}`);
  const where =
    access.profile.length === 0 ? '' : fromMm === 0 ? ' at the mouth' : ` from ${shownLength(fromMm, shown)} on`;
  return {
    passes: atMost(widestMm, clearMm),
    have,
    need: `at most ${need}${where}`,
    spare,
    asked: clearMm,
    margin: spare < 0 ? `${shownLength(-spare, shown)} too wide` : `${shownLength(spare / 2, shown)} a side`,
  };
}

function universals({ action }: StackTask, { extensions }: StackParts): Measured | null {
  const count = extensions.filter((e) => e.form === 'universal').length;
  if (count === 0) return null;
  const most = action === 'tighten' ? 0 : 1;
  const have = count === 1 ? '1 universal joint' : `${count} universal joints`;
  return {
    passes: count <= most,
    have,
    need: most === 0 ? 'none when tightening' : 'at most 1',
    spare: most - count,
    asked: null,
    margin: count <= most ? 'allowed' : 'not allowed',
  };
}

function swing({ access }: StackTask, { tool, socket }: StackParts): Measured | null {
  if (access.swingDeg === null) return null;
  const stepDeg = stepAngleDeg(tool, socket);
  const spare = spareOver(access.swingDeg, stepDeg);
  const [have, need] = apart(stepDeg, access.swingDeg, shownAngle);
  return {
    passes: atMost(stepDeg, access.swingDeg),
    have: `steps of ${have}`,
    need: `at most ${need}`,
    spare,
    asked: access.swingDeg,
    margin: marginText(spare, shownAngle),
  };
}

function handleRoom({ access, shown }: StackTask, { tool }: StackParts): Measured | null {
  if (access.handleRadiusMm === null || tool.leverMm === null) return null;
  const spare = spareOver(access.handleRadiusMm, tool.leverMm);
  const [have, need] = apart(tool.leverMm, access.handleRadiusMm, (mm, digits) => shownLength(mm, shown, digits));
  return {
    passes: atMost(tool.leverMm, access.handleRadiusMm),
    have: `lever ${have}`,
    need: `at most ${need}`,
    spare,
    asked: access.handleRadiusMm,
    margin: spare < 0 ? `${shownLength(-spare, shown)} too long` : `${shownLength(spare, shown)} over`,
  };
}

function protrusion({ access, shown }: StackTask, { socket }: StackParts): Measured | null {
  if (access.protrusionMm === null) return null;
  const { innerDepthMm } = socket;
  const deep = (mm: number, digits?: number): string => `${shownLength(mm, shown, digits)} deep`;
  if (innerDepthMm === null) {
    const need = deep(access.protrusionMm);
    return {
      passes: false,
      have: 'no inner depth given',
      need,
      spare: -access.protrusionMm,
      asked: access.protrusionMm,
      margin: 'not known to fit',
    };
  }
  const spare = spareOver(innerDepthMm, access.protrusionMm);
  const [have, need] = apart(innerDepthMm, access.protrusionMm, deep);
  return {
    passes: atLeast(innerDepthMm, access.protrusionMm),
    have,
    need,
    spare,
    asked: access.protrusionMm,
    margin: marginText(spare, (mm) => shownLength(mm, shown)),
  };
}

/** One entry for each piece of which the stack needs more than there are. */
function stock(parts: StackParts): Measured[] {
  const ids = stackIds(parts);
  const pieces = new Set([parts.tool, ...parts.extensions, parts.socket]);
  return [...pieces].flatMap(({ id, onHand }): Measured[] => {
    const need = ids.filter((other) => other === id).length;
    if (need <= onHand) return [];
    return [
      {
        passes: false,
        have: `${shownPieces(onHand)} of ${id} on hand`,
        need: shownPieces(need),
        spare: onHand - need,
        asked: null,
        margin: `short by ${shownPieces(need - onHand)}`,
      },
    ];
  });
}
