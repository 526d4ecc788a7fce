/** Quantities as texts in whatever unit the dice choose; twelve digits, so that equal values stay equal within 1e-9. */
import type { Dice } from './dice.ts';

const newtonMetresPerFootPound = 0.3048 * 0.45359237 * 9.80665;

/** A number without sign or exponent. */
function plain(value: number): string {
  const text = String(Number(value.toPrecision(12)));
  if (text.includes('e') || value < 0) throw new Error(`reference: ${text} is no number for a plan`);
  return text;
}

export function lengthText(dice: Dice, mm: number): string {
  return dice.pick([
    `${plain(mm)} mm`,
    `${plain(mm)} mm`,
    `${plain(mm / 10)} cm`,
    `${plain(mm / 25.4)} in`,
    `${plain(mm / 25.4)}"`,
  ]);
}

export function torqueText(dice: Dice, nm: number): string {
  const footPounds = plain(nm / newtonMetresPerFootPound);
  const inchPounds = plain((nm * 12) / newtonMetresPerFootPound);
  return dice.pick([
    `${plain(nm)} N·m`,
    `${plain(nm)} Nm`,
    `${plain(nm)} N-m`,
    `${plain(nm * 100)} cN·m`,
    `${footPounds} lbf·ft`,
    `${footPounds} ft-lb`,
    `${inchPounds} lbf·in`,
    `${inchPounds} in-lb`,
  ]);
}

export function massText(dice: Dice, kg: number): string {
  return dice.pick([
    `${plain(kg * 1000)} g`,
    `${plain(kg)} kg`,
    `${plain(kg / 0.028349523125)} oz`,
    `${plain(kg / 0.45359237)} lb`,
  ]);
}

export function volumeText(dice: Dice, litres: number): string {
  return dice.pick([
    `${plain(litres)} L`,
    `${plain(litres * 1000)} mL`,
    `${plain(litres * 1000)} cm3`,
    `${plain(litres / 0.016387064)} in3`,
  ]);
}

const squares: Record<string, [string, ...string[]]> = {
  '1/4': ['1/4 in', '6.3 mm', '0.25 in'],
  '3/8': ['3/8 in', '10 mm', '0.375 in'],
  '1/2': ['1/2 in', '12.5 mm', '0.5 in'],
  '3/4': ['3/4 in', '20 mm', '0.75 in'],
};

export const driveText = (dice: Dice, square: string): string => dice.pick(squares[square] ?? [square]);
