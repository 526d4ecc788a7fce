import type { HeadForm, OpeningForm } from '../../../shared-types/plan.ts';
import type { OpeningSize, ShownUnits } from '../plan/resolved.ts';
import { convertValue, showNumber } from '../units/index.ts';

/** Figures of checks as texts with their unit, in the units the step itself is written in. */
export function shownLength(mm: number, shown: ShownUnits): string {
  return `${showNumber(convertValue(mm, 'mm', shown.length))} ${shown.length}`;
}

export function shownTorque(nm: number, shown: ShownUnits): string {
  return `${showNumber(convertValue(nm, 'N·m', shown.torque))} ${shown.torque}`;
}

export function shownTorqueBand(minNm: number, maxNm: number, shown: ShownUnits): string {
  const [min, max] = [minNm, maxNm].map((nm) => showNumber(convertValue(nm, 'N·m', shown.torque)));
  return `${min}–${max} ${shown.torque}`;
}

export function shownAngle(deg: number): string {
  return `${showNumber(deg)} deg`;
}

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

export function shownOpening(form: OpeningForm, size: OpeningSize): string {
  return `${shownSize(size)} ${openingWords[form]}`;
}

export function shownHead(form: HeadForm, size: OpeningSize): string {
  return `${shownSize(size)} ${headWords[form]}`;
}
