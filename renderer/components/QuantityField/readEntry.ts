import { squareName, squareSideMm } from '../../engine/plan/squares.ts';
import { RefusedError } from '../../engine/errors.ts';
import { quantityIn, readQuantity, showQuantity } from '../../engine/units/index.ts';
import type { Kind } from '../../engine/units/index.ts';

/** What a field takes: a quantity of one kind, or a size that the trade names in one of two ways. */
export type EntryKind = 'length' | 'mass' | 'volume' | 'torque' | 'force' | 'stress' | 'angle' | 'drive' | 'head-size';

export type EntryReading =
  | { kind: 'empty' }
  /** What the entry means, beside what was typed. */
  | { kind: 'read'; said: string }
  | { kind: 'refused'; why: string };

const quantityKinds: Record<EntryKind, Kind> = {
  length: 'length',
  mass: 'mass',
  volume: 'volume',
  torque: 'torque',
  force: 'force',
  stress: 'stress',
  angle: 'angle',
  drive: 'length',
  'head-size': 'length',
};

/** Two right spellings each, one in either system. */
const examples: Record<EntryKind, readonly [string, string]> = {
  length: ['2.5 in', '63.5 mm'],
  mass: ['0.335 lb', '0.152 kg'],
  volume: ['12 in3', '0.2 L'],
  torque: ['45 lbf·ft', '61 N·m'],
  force: ['2000 lbf', '8.9 kN'],
  stress: ['120 ksi', '830 MPa'],
  angle: ['30 deg', '0.5236 rad'],
  drive: ['3/8 in', '10 mm'],
  'head-size': ['9/16 in', '14 mm'],
};

function exampleText(kind: EntryKind): string {
  const [one, other] = examples[kind];
  return `"${one}" or "${other}"`;
}

/** Hexalobular sizes are names, no lengths: T27, or 27 alone where the form is chosen. */
const hexalobularName = /^T\s?\d{1,3}$/i;

/** Reads an entry as it stands, without keeping anything of it. */
export function readEntry(kind: EntryKind, text: string): EntryReading {
  if (text.trim() === '') return { kind: 'empty' };
  if (kind === 'head-size' && hexalobularName.test(text.trim())) {
    return { kind: 'read', said: 'hexalobular size by its name · kept as typed' };
  }
  try {
    const quantity = readQuantity(text, quantityKinds[kind]);
    if (quantity.value < 0) return { kind: 'refused', why: `"${text}" is below 0. Write it as ${exampleText(kind)}.` };
    return { kind: 'read', said: [...meant(kind, text), 'kept as typed'].join(' · ') };
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return { kind: 'refused', why: refusalText(kind, text, error) };
  }
}

/** The canonical spelling where it is another than the typed one, the other unit, and the square that a drive names. */
function meant(kind: EntryKind, text: string): string[] {
  const asTyped = showQuantity(text, 'as-written');
  const other = otherUnit(text);
  const square = kind === 'drive' ? [`${squareName(driveSideMm(text))} square`] : [];
  return [...(asTyped === text.trim() ? [] : [asTyped]), ...(other === null ? [] : [other]), ...square];
}

function driveSideMm(text: string): number {
  const sideMm = quantityIn(text, 'length', 'mm');
  try {
    return squareSideMm(sideMm);
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    throw new RefusedError({ ...error.refusal, message: `"${text}" ${error.refusal.message}` });
  }
}

function otherUnit(text: string): string | null {
  const asTyped = showQuantity(text, 'as-written');
  const other = [showQuantity(text, 'si'), showQuantity(text, 'inch-pound')].find((shown) => shown !== asTyped);
  return other ?? null;
}

/** The engine's own words; two right spellings where they name none. */
function refusalText(kind: EntryKind, text: string, error: RefusedError): string {
  const { message } = error.refusal;
  const quoted = message.startsWith('"') ? message : `"${text}": ${message}`;
  const showsTwo = /as ".+" or "|write ".+" or "/i.test(message) || message.includes('1/4 in, 3/8 in');
  return showsTwo ? quoted : `${quoted} Write it as ${exampleText(kind)}.`;
}
