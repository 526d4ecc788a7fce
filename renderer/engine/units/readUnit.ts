import { RefusedError } from '../errors.ts';
import { wrongKind } from './convert.ts';
import { allUnits, kindOf, unitsOf, type Kind, type Unit } from './kinds.ts';

/** Other spellings of single units. SI symbols keep their case: Mm is no mm, mPa no MPa. */
const exactSpellings: Record<string, Unit> = {
  ml: 'mL',
  l: 'L',
  '"': 'in',
  '″': 'in',
  '”': 'in',
  '°': 'deg',
  'mm²': 'mm2',
  'cm²': 'cm2',
  'in²': 'in2',
  'cm³': 'cm3',
  'in³': 'in3',
  'mm^2': 'mm2',
  'cm^2': 'cm2',
  'in^2': 'in2',
  'cm^3': 'cm3',
  'in^3': 'in3',
  'N/mm²': 'N/mm2',
  'N/mm^2': 'N/mm2',
};

/** Inch-pound words and plain words mean the same in any case: drawings are lettered in capitals. */
const wordSpellings: Record<string, Unit> = {
  in: 'in',
  'in.': 'in',
  inch: 'in',
  inches: 'in',
  ft: 'ft',
  'ft.': 'ft',
  foot: 'ft',
  feet: 'ft',
  lb: 'lb',
  'lb.': 'lb',
  lbs: 'lb',
  'lbs.': 'lb',
  oz: 'oz',
  'oz.': 'oz',
  lbf: 'lbf',
  kip: 'kip',
  kips: 'kip',
  psi: 'psi',
  ksi: 'ksi',
  in2: 'in2',
  in3: 'in3',
  deg: 'deg',
  degrees: 'deg',
  rad: 'rad',
  rev: 'rev',
};

/** What the trade puts between the parts of a torque unit; nothing at all is allowed too. */
const separator = String.raw`(?:\s*[·⋅∙•.*×‐‑-]\s*|\s+|)`;

interface TorqueSpelling {
  form: RegExp;
  unitOf: (force: string, length: string) => Unit | undefined;
}

const torqueSpellings: TorqueSpelling[] = [
  {
    form: new RegExp(`^(?<force>[mcdkM]?N)${separator}(?<length>m)$`),
    unitOf: (force, length) => asUnit(`${force}·${length}`),
  },
  {
    form: new RegExp(`^(?<force>kgf|gf)${separator}(?<length>m|cm)$|^(?<length2>m|cm)${separator}(?<force2>kgf|gf)$`),
    unitOf: (force, length) => asUnit(`${force}·${length}`),
  },
  {
    form: new RegExp(
      String.raw`^(?<force>lbf|lbs?\.?|ozf|oz\.?)${separator}(?<length>ft\.?|in\.?|inch)$|` +
        String.raw`^(?<length2>ft\.?|in\.?|inch)${separator}(?<force2>lbf|lbs?\.?|ozf|oz\.?)$`,
      'i',
    ),
    unitOf: (force, length) => asUnit(`${/^l/i.test(force) ? 'lbf' : 'ozf'}·${/^f/i.test(length) ? 'ft' : 'in'}`),
  },
];

function asUnit(text: string): Unit | undefined {
  return allUnits.find((unit) => unit === text);
}

function torqueUnit(text: string): Unit | undefined {
  for (const { form, unitOf } of torqueSpellings) {
    const parts = form.exec(text)?.groups;
    if (parts === undefined) continue;
    return unitOf(parts['force'] ?? parts['force2'] ?? '', parts['length'] ?? parts['length2'] ?? '');
  }
  return undefined;
}

function find(text: string): Unit | undefined {
  const own = <T>(record: Record<string, T>, key: string) => (Object.hasOwn(record, key) ? record[key] : undefined);
  return asUnit(text) ?? own(exactSpellings, text) ?? own(wordSpellings, text.toLowerCase()) ?? torqueUnit(text);
}

/** Whether a text is a spelling of any unit. */
export function namesUnit(text: string): boolean {
  return find(text.trim()) !== undefined;
}

/**
 * The unit a text names.
 *
 * @param text - any accepted spelling
 * @param wanted - the kind the place takes, where it takes one only
 * @returns the unit in its canonical spelling, and what it measures
 * @throws RefusedError unknown-unit, ambiguous-quantity ("nm"), wrong-kind: each names what was given and what was asked for
 * @source the unit spellings of the headless contract; SP 811 for the case of SI symbols, which tells mN·m from MN·m
 * @validity the units of kinds.ts; SI symbols keep their case, inch-pound words do not
 * @example readUnit('ft-lbs') // { unit: 'lbf·ft', kind: 'torque' }
 */
export function readUnit(text: string, wanted?: Kind): { unit: Unit; kind: Kind } {
  const spelled = text.trim();
  const start = text.length - text.trimStart().length;
  const unit = find(spelled);
  if (unit === undefined) throw unknown(spelled, wanted).within({ value: text, position: start });
  if (wanted !== undefined && kindOf(unit) !== wanted) throw wrongKind(unit, wanted).within({ position: start });
  return { unit, kind: kindOf(unit) };
}

function unknown(spelled: string, wanted: Kind | undefined): RefusedError {
  const asked =
    wanted === undefined
      ? `Known units: ${allUnits.join(', ')}.`
      : `Asked for is a unit of ${wanted}: ${unitsOf(wanted).join(', ')}.`;
  if (spelled === '') return new RefusedError({ code: 'unknown-unit', message: `No unit is given. ${asked}` });
  const other = twoReadings(spelled);
  if (other !== undefined) return new RefusedError({ code: 'ambiguous-quantity', message: `"${spelled}" ${other}` });
  return new RefusedError({
    code: 'unknown-unit',
    message: `"${spelled}" is no unit known here.${hint(spelled)} ${asked}`,
  });
}

/** Spellings that a reader may take for another unit altogether. */
function twoReadings(spelled: string): string | undefined {
  if (/^nm$/i.test(spelled)) return 'can be read as nanometre or as newton metre: write "N·m" or "Nm".';
  if (new RegExp(`^m${separator}N$`).test(spelled))
    return 'can be read as millinewton or as newton metre: write "mN·m" or "N·m".';
  return undefined;
}

function hint(spelled: string): string {
  if (new RegExp(`^k?g${separator}c?m$`).test(spelled))
    return ' A mass is no force: write "kgf·m", "kgf·cm" or "gf·cm".';
  const near = allUnits.filter((unit) => unit.toLowerCase() === spelled.toLowerCase().replace(/[\s.*⋅×-]+/, '·'));
  return near.length === 0 ? '' : ` Did you mean ${near.map((unit) => `"${unit}"`).join(' or ')}?`;
}
