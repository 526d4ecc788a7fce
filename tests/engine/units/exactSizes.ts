import type { Unit } from '../../../renderer/engine/units/index.ts';

/**
 * Sizes worked out here a second time, as quotients of whole numbers, from the anchors alone: inch, pound and standard gravity.
 * The program's own table is not read.
 */
const inch = ratio(254n, 10n); // mm
const foot = times(inch, ratio(12n)); // mm
const pound = ratio(45359237n, 100_000_000n); // kg
const ounce = over(pound, ratio(16n));
const gravity = ratio(980665n, 100_000n); // m/s²
const poundForce = times(pound, gravity); // N
const perMetre = ratio(1n, 1000n); // m in a mm

export const sizes: Partial<Record<Unit, Ratio>> = {
  N·m: ratio(1n),
  mN·m: ratio(1n, 1000n),
  cN·m: ratio(1n, 100n),
  dN·m: ratio(1n, 10n),
  kN·m: ratio(1000n),
  MN·m: ratio(1_000_000n),
  lbf·ft: times(times(poundForce, foot), perMetre),
  lbf·in: times(times(poundForce, inch), perMetre),
  ozf·in: times(times(over(poundForce, ratio(16n)), inch), perMetre),
  kgf·m: gravity,
  kgf·cm: over(gravity, ratio(100n)),
  gf·cm: over(gravity, ratio(100_000n)),
  N: ratio(1n),
  kN: ratio(1000n),
  lbf: poundForce,
  kip: times(poundForce, ratio(1000n)),
  kgf: gravity,
  mm: ratio(1n),
  cm: ratio(10n),
  m: ratio(1000n),
  in: inch,
  ft: foot,
  g: ratio(1n, 1000n),
  kg: ratio(1n),
  lb: pound,
  oz: ounce,
  mm2: ratio(1n),
  cm2: ratio(100n),
  in2: times(inch, inch),
  L: ratio(1000n),
  mL: ratio(1n),
  cm3: ratio(1n),
  in3: over(times(times(inch, inch), inch), ratio(1000n)),
  MPa: ratio(1n),
  'N/mm2': ratio(1n),
  GPa: ratio(1000n),
  Pa: ratio(1n, 1_000_000n),
  psi: over(poundForce, times(inch, inch)),
  ksi: over(times(poundForce, ratio(1000n)), times(inch, inch)),
  deg: ratio(1n),
  rev: ratio(360n),
  // 180/π to 50 digits.
  rad: ratio(572957795130823208767981548141051703324054724665643n, 10n ** 49n),
};

export interface Ratio {
  top: bigint;
  bottom: bigint;
}
export function ratio(top: bigint, bottom = 1n): Ratio {
  return { top, bottom };
}
export function times(a: Ratio, b: Ratio): Ratio {
  return { top: a.top * b.top, bottom: a.bottom * b.bottom };
}
export function over(a: Ratio, b: Ratio): Ratio {
  return { top: a.top * b.bottom, bottom: a.bottom * b.top };
}
