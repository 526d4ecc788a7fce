/** What a quantity is a quantity of. */
export type Kind = 'torque' | 'length' | 'force' | 'mass' | 'area' | 'volume' | 'stress' | 'angle';

export type UnitsShown = 'as-written' | 'si' | 'inch-pound' | 'both';

interface UnitDefinition {
  kind: Kind;
  /** Size in the kind's anchor unit: an exact decimal, or the quotient of two. */
  size: string | readonly [string, string];
}

/**
 * Every unit the program speaks, canonical spelling first, with its exact size.
 *
 *   1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s²
 *
 * Anchors (size 1): N·m, mm, N, kg, mm2, mL, MPa, deg. `rad` is the only size that no decimal holds; it is given to 33 digits.
 *
 * @source Exact definitions: international yard and pound agreement (1959), CGPM 1901 (standard gravity); NIST SP 811:2008,
 *   appendix B.8 (from memory, checked against GNU units 2.22)
 */
export const unitDefinitions = {
  N·m: { kind: 'torque', size: '1' },
  mN·m: { kind: 'torque', size: '0.001' },
  cN·m: { kind: 'torque', size: '0.01' },
  dN·m: { kind: 'torque', size: '0.1' },
  kN·m: { kind: 'torque', size: '1000' },
  MN·m: { kind: 'torque', size: '1000000' },
  lbf·ft: { kind: 'torque', size: '1.3558179483314004' },
  lbf·in: { kind: 'torque', size: '0.1129848290276167' },
  ozf·in: { kind: 'torque', size: ['0.1129848290276167', '16'] },
  kgf·m: { kind: 'torque', size: '9.80665' },
  kgf·cm: { kind: 'torque', size: '0.0980665' },
  gf·cm: { kind: 'torque', size: '0.0000980665' },
  N: { kind: 'force', size: '1' },
  kN: { kind: 'force', size: '1000' },
  lbf: { kind: 'force', size: '4.4482216152605' },
  kip: { kind: 'force', size: '4448.2216152605' },
  kgf: { kind: 'force', size: '9.80665' },
  mm: { kind: 'length', size: '1' },
  cm: { kind: 'length', size: '10' },
  m: { kind: 'length', size: '1000' },
  in: { kind: 'length', size: '25.4' },
  ft: { kind: 'length', size: '304.8' },
  kg: { kind: 'mass', size: '1' },
  g: { kind: 'mass', size: '0.001' },
  lb: { kind: 'mass', size: '0.45359237' },
  oz: { kind: 'mass', size: '0.028349523125' },
  mm2: { kind: 'area', size: '1' },
  cm2: { kind: 'area', size: '100' },
  in2: { kind: 'area', size: '645.16' },
  mL: { kind: 'volume', size: '1' },
  L: { kind: 'volume', size: '1000' },
  cm3: { kind: 'volume', size: '1' },
  in3: { kind: 'volume', size: '16.387064' },
  MPa: { kind: 'stress', size: '1' },
  'N/mm2': { kind: 'stress', size: '1' },
  GPa: { kind: 'stress', size: '1000' },
  Pa: { kind: 'stress', size: '0.000001' },
  psi: { kind: 'stress', size: ['4.4482216152605', '645.16'] },
  ksi: { kind: 'stress', size: ['4448.2216152605', '645.16'] },
  deg: { kind: 'angle', size: '1' },
  rad: { kind: 'angle', size: '57.2957795130823208767981548141052' },
  rev: { kind: 'angle', size: '360' },
} as const satisfies Record<string, UnitDefinition>;

/** A unit in its canonical spelling. */
export type Unit = keyof typeof unitDefinitions;

export const allUnits = Object.keys(unitDefinitions) as Unit[];

/**
 * What a unit measures.
 *
 * @returns the kind
 * @throws nothing
 * @source the definitions above
 * @validity the units above
 * @example kindOf('lbf·ft') // 'torque'
 */
export function kindOf(unit: Unit): Kind {
  return unitDefinitions[unit].kind;
}

/**
 * Every unit of one kind, in the order of the definitions.
 *
 * @returns the units
 * @throws nothing
 * @source the definitions above
 * @validity the kinds above
 * @example unitsOf('angle') // ['deg', 'rad', 'rev']
 */
export function unitsOf(kind: Kind): Unit[] {
  return allUnits.filter((unit) => kindOf(unit) === kind);
}
