import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import { convertValue, quantityIn, readQuantity, roundNominal, showQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';

type LengthUnit = 'mm' | 'in';

/** Lengths of one drawing as texts: what was typed stays as typed, what was computed follows the unit typed. */
export interface ShownLengths {
  /** The authority first, the other unit in brackets. */
  typed(text: string): string;
  computed(valueMm: number): string;
  /** Unit of the scale bar. */
  unit: LengthUnit;
}

export function shownLengths(written: LengthUnit, mode: UnitsShown): ShownLengths {
  const first: LengthUnit = mode === 'si' ? 'mm' : mode === 'inch-pound' ? 'in' : written;
  const second: LengthUnit = first === 'mm' ? 'in' : 'mm';
  return {
    typed: (text) => showQuantity(text, mode),
    computed: (valueMm) =>
      mode === 'both' ? `${lengthIn(valueMm, first)} (${lengthIn(valueMm, second)})` : lengthIn(valueMm, first),
    unit: first,
  };
}

/** Digits by which a mechanic reads a rule: 0.1 mm, 0.01 in, one more where the length would else say little. */
function lengthIn(valueMm: number, unit: LengthUnit): string {
  const value = convertValue(valueMm, 'mm', unit);
  const usual = unit === 'mm' ? 1 : 2;
  const decimals = value !== 0 && Math.abs(value) < 10 ** (1 - usual) - 1e-9 ? usual + 1 : usual;
  return `${roundNominal(value, decimals)} ${unit}`;
}

/** Inches where the depth, or else the first length of the stack, was typed in inches or feet. */
export function writtenUnit(texts: readonly (string | undefined)[]): LengthUnit {
  const first = texts.find((text) => text !== undefined);
  if (first === undefined) return 'mm';
  const { unit } = readQuantity(first, 'length');
  return unit === 'in' || unit === 'ft' ? 'in' : 'mm';
}

/** The plan's own texts behind a stack's lengths, where the plan has them. */
export interface TypedLengths {
  depth: string | undefined;
  clearDiameter: string | undefined;
  handleRadius: string | undefined;
  protrusion: string | undefined;
  acrossFlats: string | undefined;
  lever: string | undefined;
  opening: string | undefined;
  /** By id, of extensions and sockets. */
  outsideDiameter: Map<string, string>;
  length: Map<string, string>;
}

export function typedLengths(plan: ResolvedPlan, step: ResolvedStep, stack: readonly string[]): TypedLengths {
  const { catalog, steps } = plan.source;
  const source = steps.find((s) => s.id === step.id);
  const accesses = [source?.access, source?.hold?.access];
  // A step drawn for its hold carries the hold's access: the text that means the same length is the one.
  const sameText = (valueMm: number | null, texts: (string | undefined)[]): string | undefined =>
    valueMm === null ? undefined : texts.find((text) => text !== undefined && sameMm(text, valueMm));
  const parts = [...catalog.extensions, ...catalog.sockets].filter((part) => stack.includes(part.id));
  const toolSource = [...catalog.drivers, ...catalog.torqueTools].find((tool) => tool.id === stack[0]);
  const socketSource = catalog.sockets.find((socket) => socket.id === stack.at(-1));
  return {
    depth: sameText(
      step.access.depthMm,
      accesses.map((a) => a?.depth),
    ),
    clearDiameter: sameText(
      step.access.clearDiameterMm,
      accesses.map((a) => a?.clearDiameter),
    ),
    handleRadius: sameText(
      step.access.handleRadiusMm,
      accesses.map((a) => a?.handleRadius),
    ),
    protrusion: sameText(
      step.access.protrusionMm,
      accesses.map((a) => a?.protrusion),
    ),
    acrossFlats: catalog.fasteners.find((f) => f.id === step.fastener?.id)?.head.acrossFlats,
    lever: toolSource?.lever,
    opening: socketSource?.opening.size,
    outsideDiameter: new Map(parts.map((part) => [part.id, part.outsideDiameter])),
    length: new Map(parts.map((part) => [part.id, part.length])),
  };
}

function sameMm(text: string, valueMm: number): boolean {
  return Math.abs(quantityIn(text, 'length', 'mm') - valueMm) < 1e-6;
}
