import type { BandNm, ShownUnits } from '../plan/resolved.ts';
import { atLeast } from '../tolerance.ts';
import { chooseSetting } from '../torque/chooseSetting.ts';
import type { Measured } from './measured.ts';
import { marginText, spareOver } from './measured.ts';
import { apart, shownTorque, shownTorqueBand } from './shown.ts';
import type { StackParts, StackTask } from './stackTask.ts';

/** Rule 5: the weakest of the parts against the demand. */
export function strength({ demandNm, shown }: StackTask, { tool, extensions, socket }: StackParts): Measured {
  const weakestNm = Math.min(tool.maxNm, socket.ratedNm, ...extensions.map((e) => e.ratedNm));
  const spare = spareOver(weakestNm, demandNm);
  const [have, need] = apart(weakestNm, demandNm, (nm, digits) => shownTorque(nm, shown, digits));
  return {
    passes: atLeast(weakestNm, demandNm),
    have,
    need,
    spare,
    asked: demandNm,
    margin: marginText(spare, (nm) => shownTorque(nm, shown)),
  };
}

/** Rule 6: the band applied at the best setting against the aim; null where nothing is tightened. */
export function accuracy({ aim, rangeShareMin, shown }: StackTask, { tool }: StackParts): Measured | null {
  if (!aim) return null;
  const chosen = tool.torque && chooseSetting({ torque: tool.torque, aim, rangeShareMin });
  if (!chosen) {
    const need = `inside ${shownTorqueBand(aim, shown)}`;
    const asked = aim.maxNm;
    return { passes: false, have: 'no setting in its range', need, spare: -asked, asked, margin: 'nothing to set' };
  }
  const { applied, setting, conforms } = chosen;
  const marginNm = conforms ? Math.max(0, chosen.marginNm) : chosen.marginNm;
  const digits = digitsApart(applied, aim, shown);
  return {
    passes: conforms,
    have: `${shownTorqueBand(applied, shown, digits)} applied at ${setting.value} ${setting.unit}`,
    need: `inside ${shownTorqueBand(aim, shown, digits)}`,
    spare: marginNm,
    asked: aim.maxNm,
    margin: marginNm < 0 ? `${shownTorque(-marginNm, shown)} outside` : `${shownTorque(marginNm, shown)} inside`,
  };
}

/** Digits at which neither end of two bands looks like the other's where they differ by more than the tolerance. */
function digitsApart(a: BandNm, b: BandNm, shown: ShownUnits): number {
  for (let digits = 4; ; digits += 1) {
    const same = (x: number, y: number): boolean =>
      spareOver(x, y) !== 0 && shownTorque(x, shown, digits) === shownTorque(y, shown, digits);
    if (!same(a.minNm, b.minNm) && !same(a.maxNm, b.maxNm)) return digits;
  }
}
