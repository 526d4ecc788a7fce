/** A reader of quantities for the reference alone: only the units that its generated plans are written in. */

type Kind = 'length' | 'torque' | 'mass' | 'volume';

// The exact definitions: a foot, a pound and the standard acceleration.
const newtonMetresPerFootPound = 0.3048 * 0.45359237 * 9.80665;
const newtonMetresPerInchPound = newtonMetresPerFootPound / 12;

const units: Record<string, { kind: Kind; factor: number }> = {
  mm: { kind: 'length', factor: 1 },
  cm: { kind: 'length', factor: 10 },
  in: { kind: 'length', factor: 25.4 },
  '"': { kind: 'length', factor: 25.4 },
  N·m: { kind: 'torque', factor: 1 },
  Nm: { kind: 'torque', factor: 1 },
  'N-m': { kind: 'torque', factor: 1 },
  cN·m: { kind: 'torque', factor: 0.01 },
  lbf·ft: { kind: 'torque', factor: newtonMetresPerFootPound },
  'ft-lb': { kind: 'torque', factor: newtonMetresPerFootPound },
  lbf·in: { kind: 'torque', factor: newtonMetresPerInchPound },
  'in-lb': { kind: 'torque', factor: newtonMetresPerInchPound },
  g: { kind: 'mass', factor: 0.001 },
  kg: { kind: 'mass', factor: 1 },
  oz: { kind: 'mass', factor: 0.028349523125 },
  lb: { kind: 'mass', factor: 0.45359237 },
  mL: { kind: 'volume', factor: 0.001 },
  cm3: { kind: 'volume', factor: 0.001 },
  L: { kind: 'volume', factor: 1 },
  in3: { kind: 'volume', factor: 0.016387064 },
};

const shape = /^(?:(?:(\d+)-)?(\d+)\/(\d+)|(\d+(?:\.\d+)?))\s*(\D[^\s]*)$/;

function read(text: string, kind: Kind): number {
  const match = shape.exec(text);
  const unit = match?.[5] === undefined ? undefined : units[match[5]];
  if (match === null || unit?.kind !== kind) throw new Error(`reference: "${text}" is no ${kind}`);
  const [, whole, numerator, denominator, decimal] = match;
  const number = decimal === undefined ? Number(whole ?? 0) + Number(numerator) / Number(denominator) : Number(decimal);
  return number * unit.factor;
}

export const lengthMm = (text: string): number => read(text, 'length');
export const torqueNm = (text: string): number => read(text, 'torque');
export const massKg = (text: string): number => read(text, 'mass');
export const volumeL = (text: string): number => read(text, 'volume');

/** Is there no more of `have` than `most`? Limits compare with a tolerance of 1e-9 relative. */
export function atMost(have: number, most: number): boolean {
  if (have <= most) return true;
  return have - most <= 1e-9 * Math.max(Math.abs(have), Math.abs(most));
}

export const atLeast = (have: number, least: number): boolean => atMost(least, have);

export const same = (a: number, b: number): boolean => atMost(a, b) && atMost(b, a);

const squares: [name: string, millimetres: number[]][] = [
  ['1/4', [6.35, 6.3]],
  ['3/8', [9.525, 10]],
  ['1/2', [12.7, 12.5]],
  ['3/4', [19.05, 20]],
  ['1', [25.4, 25]],
];

/** The drive square a text names; inch and metric names of one square give one answer. */
export function driveSquare(text: string): string {
  const sideMm = lengthMm(text);
  const square = squares.find(([, millimetres]) => millimetres.some((one) => same(one, sideMm)));
  if (square === undefined) throw new Error(`reference: "${text}" is no drive`);
  return square[0];
}
