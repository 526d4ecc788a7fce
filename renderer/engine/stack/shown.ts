import type { HeadForm, OpeningForm } from '../../../shared-types/plan.ts';
import type { BandNm, OpeningSize, ShownUnits } from '../plan/resolved.ts';
import { convertValue, showNumber } from '../units/index.ts';
import { spareOver } from './measured.ts';

/** Figures of checks as texts with their unit, in the units the step itself is written in. */
export function shownLength(mm: number, shown: ShownUnits, digits?: number): string {
  return `${showNumber(convertValue(mm, 'mm', shown.length), digits)} ${shown.length}`;
}

/** A torque in the unit the step is written in. */
export function shownTorque(nm: number, shown: ShownUnits, digits?: number): string {
  return `${showNumber(convertValue(nm, 'N·m', shown.torque), digits)} ${shown.torque}`;
}

/** A band of torque in that unit, its ends rounded inward. */
export function shownTorqueBand(band: BandNm, shown: ShownUnits, digits?: number): string {
  const [min, max] = [band.minNm, band.maxNm].map((nm) => showNumber(convertValue(nm, 'N·m', shown.torque), digits));
  return `${min}–${max} ${shown.torque}`;
}

/** An angle in degrees. */
export function shownAngle(deg: number, digits?: number): string {
  return `${showNumber(deg, digits)} deg`;
}

const digitsShown = 4;
const digitsMax = 17;

/** What is had and what is needed as texts, with as many digits as it takes to tell them apart where they differ. */
export function apart(have: number, need: number, show: (value: number, digits: number) => string): [string, string] {
  for (let digits = digitsShown; ; digits += 1) {
    const texts: [string, string] = [show(have, digits), show(need, digits)];
    if (texts[0] !== texts[1] || spareOver(have, need) === 0 || digits === digitsMax) return texts;
  }
}

/** A count of pieces. */
export function shownPieces(count: number): string {
  return count === 1 ? '1 piece' : `${showNumber(count)} pieces`;
}

function shownSize(size: OpeningSize): string {
  return 'text' in size ? size.text : (size.typed ?? `${showNumber(size.mm)} mm`);
}

const openingWords: Record<OpeningForm, string> = {
  hex6: '6-point',
  hex12: '12-point',
  hexKey: 'hex key',
  hexalobular: 'hexalobular',
  square: 'square',
};

const headWords: Record<HeadForm, string> = {
  hex: 'hex head',
  'heavy-hex': 'heavy hex head',
  nut: 'nut',
  'twelve-point': '12-point head',
  'hex-socket': 'hex socket head',
  hexalobular: 'hexalobular head',
  square: 'square head',
};

/** An opening by its form and size. */
export function shownOpening(form: OpeningForm, size: OpeningSize): string {
  return `${shownSize(size)} ${openingWords[form]}`;
}

/** A head by its form and size. */
export function shownHead(form: HeadForm, size: OpeningSize): string {
  return `${shownSize(size)} ${headWords[form]}`;
}
