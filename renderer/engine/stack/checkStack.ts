import type { CheckName } from '../../../shared-types/bag.ts';
import { squareName } from '../plan/squares.ts';
import { openingGoesOnHead } from '../socket/index.ts';
import { atLeast, atMost } from '../tolerance.ts';
import { chooseSetting } from '../torque/chooseSetting.ts';
import type { StackCheck } from './judged.ts';
import {
  shownAngle,
  shownHead,
  shownLength,
  shownOpening,
  shownPieces,
  shownTorque,
  shownTorqueBand,
} from './shown.ts';
import type { StackParts, StackTask } from './stackTask.ts';
import { stackIds, stackLengthMm, stepAngleDeg } from './stackTask.ts';

/** A check with what it lacks as a number in the check's own unit: 0 where it passes. Orders closest fits. */
export interface MeasuredCheck extends StackCheck {
  shortfall: number;
}

interface Measured {
  passes: boolean;
  have: string;
  need: string;
  /** Above 0 to spare, below 0 short; in the check's unit. */
  spare: number;
  margin: string;
}

/** How far over or short, in words with a number; empty for what is not measured. */
function marginText(spare: number, show: (amount: number) => string): string {
  return spare < 0 ? `short by ${show(-spare)}` : `${show(spare)} over`;
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
    ['stock', stock(parts)],
  ];
  return checks.flatMap(([check, measured]) => {
    if (!measured) return [];
    const { passes, have, need, margin, spare } = measured;
    return [{ check, passes, have, need, margin, shortfall: passes ? 0 : Math.max(-spare, Number.MIN_VALUE) }];
  });
}

function drives({ tool, extensions, socket }: StackParts): Measured {
  const males = [tool.driveMm, ...extensions.map((e) => e.driveOutMm)];
  const females = [...extensions.map((e) => e.driveInMm), socket.driveMm];
  const joints = males.map((male, index) => ({ male, female: females[index] ?? 0 }));
  const off = joints.filter(({ male, female }) => male !== female);
  const shown = off[0] ?? { male: tool.driveMm, female: tool.driveMm };
  return {
    passes: off.length === 0,
    have: `${squareName(shown.male)} male`,
    need: `${squareName(shown.female)} male`,
    spare: -off.reduce((sum, { male, female }) => sum + Math.abs(male - female), 0),
    margin: off.length === 0 ? 'every square meets its like' : `${off.length} of ${joints.length} joints do not meet`,
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
    margin: passes ? 'same nominal size' : 'does not go on',
  };
}

function reach({ access, shown }: StackTask, parts: StackParts): Measured {
  const lengthMm = stackLengthMm(parts);
  const spare = lengthMm - access.depthMm;
  return {
    passes: atLeast(lengthMm, access.depthMm),
    have: shownLength(lengthMm, shown),
    need: shownLength(access.depthMm, shown),
    spare,
    margin: marginText(spare, (mm) => shownLength(mm, shown)),
  };
}

function clearance({ access, shown }: StackTask, { extensions, socket }: StackParts): Measured | null {
  const { clearDiameterMm, depthMm } = access;
  if (clearDiameterMm === null || depthMm === 0) return null;
  let beginMm = 0;
  let widestMm = 0;
  for (const part of [socket, ...extensions.toReversed()]) {
    if (!atLeast(beginMm, depthMm)) widestMm = Math.max(widestMm, part.outsideDiameterMm);
    beginMm += part.lengthMm;
  }
  const spare = clearDiameterMm - widestMm;
  return {
    passes: atMost(widestMm, clearDiameterMm),
    have: `⌀ ${shownLength(widestMm, shown)}`,
    need: `at most ⌀ ${shownLength(clearDiameterMm, shown)}`,
    spare,
    margin: spare < 0 ? `${shownLength(-spare, shown)} too wide` : `${shownLength(spare / 2, shown)} a side`,
  };
}

function strength({ demandNm, shown }: StackTask, { tool, extensions, socket }: StackParts): Measured {
  const weakestNm = Math.min(tool.maxNm, socket.ratedNm, ...extensions.map((e) => e.ratedNm));
  const spare = weakestNm - demandNm;
  return {
    passes: atLeast(weakestNm, demandNm),
    have: shownTorque(weakestNm, shown),
    need: shownTorque(demandNm, shown),
    spare,
    margin: marginText(spare, (nm) => shownTorque(nm, shown)),
  };
}

function accuracy({ action, aim, rangeShareMin, shown }: StackTask, { tool }: StackParts): Measured | null {
  if (action !== 'tighten' || !aim) return null;
  const need = `inside ${shownTorqueBand(aim.minNm, aim.maxNm, shown)}`;
  const chosen = tool.torque && chooseSetting({ torque: tool.torque, aim, rangeShareMin });
  if (!chosen) {
    return { passes: false, have: 'no setting in its range', need, spare: -aim.maxNm, margin: 'nothing to set' };
  }
  const { applied, marginNm, setting, conforms } = chosen;
  return {
    passes: conforms,
    have: `${shownTorqueBand(applied.minNm, applied.maxNm, shown)} applied at ${setting.value} ${setting.unit}`,
    need,
    spare: marginNm,
    margin: marginNm < 0 ? `${shownTorque(-marginNm, shown)} outside` : `${shownTorque(marginNm, shown)} inside`,
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
    margin: count <= most ? 'allowed' : 'not allowed',
  };
}

function swing({ access }: StackTask, { tool, socket }: StackParts): Measured | null {
  if (access.swingDeg === null) return null;
  const stepDeg = stepAngleDeg(tool, socket);
  const spare = access.swingDeg - stepDeg;
  return {
    passes: atMost(stepDeg, access.swingDeg),
    have: `steps of ${shownAngle(stepDeg)}`,
    need: `at most ${shownAngle(access.swingDeg)}`,
    spare,
    margin: marginText(spare, shownAngle),
  };
}

function handleRoom({ access, shown }: StackTask, { tool }: StackParts): Measured | null {
  if (access.handleRadiusMm === null || tool.leverMm === null) return null;
  const spare = access.handleRadiusMm - tool.leverMm;
  return {
    passes: atMost(tool.leverMm, access.handleRadiusMm),
    have: `lever ${shownLength(tool.leverMm, shown)}`,
    need: `at most ${shownLength(access.handleRadiusMm, shown)}`,
    spare,
    margin: spare < 0 ? `${shownLength(-spare, shown)} too long` : `${shownLength(spare, shown)} over`,
  };
}

function protrusion({ access, shown }: StackTask, { socket }: StackParts): Measured | null {
  if (access.protrusionMm === null) return null;
  const need = `${shownLength(access.protrusionMm, shown)} deep`;
  const { innerDepthMm } = socket;
  if (innerDepthMm === null) {
    return {
      passes: false,
      have: 'no inner depth given',
      need,
      spare: -access.protrusionMm,
      margin: 'not known to fit',
    };
  }
  const spare = innerDepthMm - access.protrusionMm;
  return {
    passes: atLeast(innerDepthMm, access.protrusionMm),
    have: `${shownLength(innerDepthMm, shown)} deep`,
    need,
    spare,
    margin: marginText(spare, (mm) => shownLength(mm, shown)),
  };
}

function stock(parts: StackParts): Measured | null {
  const ids = stackIds(parts);
  const short = [parts.tool, ...parts.extensions, parts.socket]
    .map((piece) => ({ id: piece.id, need: ids.filter((id) => id === piece.id).length, have: piece.onHand }))
    .find(({ need, have }) => need > have);
  if (!short) return null;
  return {
    passes: false,
    have: `${shownPieces(short.have)} of ${short.id} on hand`,
    need: shownPieces(short.need),
    spare: short.have - short.need,
    margin: `short by ${shownPieces(short.need - short.have)}`,
  };
}
