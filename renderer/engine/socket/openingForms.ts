import type { HeadForm, OpeningForm } from '../../../shared-types/plan.ts';
import type { OpeningSize } from '../plan/resolved.ts';
import { sameNominalMm } from './sameNominal.ts';

const formsFor: Readonly<Record<HeadForm, readonly OpeningForm[]>> = {
  hex: ['hex6', 'hex12'],
  'heavy-hex': ['hex6', 'hex12'],
  nut: ['hex6', 'hex12'],
  'twelve-point': ['hex12'],
  'hex-socket': ['hexKey'],
  hexalobular: ['hexalobular'],
  square: ['square'],
};

/**
 * The forms of opening that act on a form of head, six-point before twelve-point.
 *
 * @returns the forms, best first
 * @throws nothing
 * @source rule 2 of command `bag`; a 12-point opening on a 6-point head: common practice, no source
 * @validity every form of the plan's schema
 * @example openingFormsFor('nut') // ['hex6', 'hex12']
 */
export function openingFormsFor(headForm: HeadForm): readonly OpeningForm[] {
  return formsFor[headForm];
}

/**
 * Whether an opening goes on a head by their names: the form acts on it, and the nominal size is the same.
 *
 *   |S − s| ≤ 0.01 mm + 1e-9·max(S, s); hexalobular: the same text
 *
 * @param x.headForm - form of the head
 * @param x.acrossFlats - s, nominal width across flats [mm]; a hexalobular size as text
 * @param x.openingForm - form of the opening
 * @param x.size - S, nominal size of the opening [mm]; a hexalobular size as text
 * @returns true where it goes on; a text never matches a length
 * @throws nothing
 * @source rule 2 of command `bag`. It knows no limits: `fitOf` does.
 * @validity every form of the plan's schema
 * @example openingGoesOnHead({ headForm: 'hex', acrossFlats: { mm: 16 }, openingForm: 'hex6', size: { mm: 15.875 } }) // false
 */
export function openingGoesOnHead(x: {
  headForm: HeadForm;
  acrossFlats: OpeningSize;
  openingForm: OpeningForm;
  size: OpeningSize;
}): boolean {
  if (!formsFor[x.headForm].includes(x.openingForm)) return false;
  const { headForm, acrossFlats, size } = x;
  if ('text' in acrossFlats) return headForm === 'hexalobular' && 'text' in size && acrossFlats.text === size.text;
  return headForm !== 'hexalobular' && 'mm' in size && sameNominalMm(acrossFlats.mm, size.mm);
}
