import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { shownLengths, typedLengths, writtenUnit } from './shownLength.ts';
import type { StackShape } from './stackShape.ts';

/** Every word and number of the drawing; the table beside it is made from the same. */
export interface StackTexts {
  needed: string;
  stack: string;
  /** "1.66 in to spare", "short by 0.75 in", "none to spare". */
  spare: string;
  /** What stands under the hole: its clear diameter, and the gap or how much jams. */
  hole: string[];
  /** One for each balloon: tool, parts, head; empty where nothing is said. */
  balloons: string[];
  parts: PartWords[];
  rows: TableRow[];
  swing: SwingTexts | null;
  unit: 'mm' | 'in';
}

export interface PartWords {
  number: number;
  id: string;
  name: string;
}

export interface TableRow {
  what: string;
  value: string;
  note: string;
}

export interface SwingTexts {
  swing: string | null;
  lever: string;
  room: string | null;
  fails: boolean;
}

export function stackTexts(
  plan: ResolvedPlan,
  step: ResolvedStep,
  stack: readonly string[],
  shape: StackShape,
  mode: UnitsShown,
): StackTexts {
  const typed = typedLengths(plan, step, stack);
  const socketLength = typed.length.get(shape.socket.id);
  const shown = shownLengths(writtenUnit([typed.depth, socketLength]), mode);
  const of = (text: string | undefined, valueMm: number): string =>
    text === undefined ? shown.computed(valueMm) : shown.typed(text);
  const diameterOf = (id: string, valueMm: number): string => `⌀${of(typed.outsideDiameter.get(id), valueMm)}`;

  const { depthMm, clearMm, gapMm, spareMm, lengthMm, fastener } = shape;
  const needed = depthMm === 0 ? 'none needed' : of(typed.depth, depthMm);
  const spare =
    spareMm === 0
      ? 'none to spare'
      : spareMm > 0
        ? `${shown.computed(spareMm)} to spare`
        : `short by ${shown.computed(-spareMm)}`;
  const clear = clearMm === null ? null : `⌀${of(typed.clearDiameter, clearMm)}`;
  const gap =
    gapMm === null
      ? null
      : gapMm < 0
        ? `${shown.computed(-2 * gapMm)} too wide`
        : gapMm === 0
          ? 'no gap'
          : `gap ${shown.computed(gapMm)} all round`;
  const hole =
    depthMm === 0
      ? []
      : clear === null
        ? ['clear diameter not given']
        : [
            ...shape.profile.map(
              ({ toMm, clearMm: wideMm }) => `clear ⌀${shown.computed(wideMm)} to ${shown.computed(toMm)}`,
            ),
            `clear ${clear}`,
            ...(gap === null ? [] : [gap]),
          ];
  const flats =
    'text' in fastener.acrossFlats ? fastener.acrossFlats.text : of(typed.acrossFlats, fastener.acrossFlats.mm);
  const opening = 'text' in shape.socket.size ? shape.socket.size.text : of(typed.opening, shape.socket.size.mm);

  const parts = [
    { number: 1, id: shape.tool.id, name: shape.tool.name },
    ...shape.parts.map(({ part }, index) => ({ number: index + 2, id: part.id, name: part.name })),
    { number: shape.parts.length + 2, id: fastener.id, name: fastener.name },
  ];
  const rows: TableRow[] = [
    { what: 'Depth to the head', value: depthMm === 0 ? 'none given' : needed, note: 'needed' },
    { what: 'Stack, socket and extensions', value: shown.computed(lengthMm), note: spare },
    ...shape.profile.map(({ toMm, clearMm: wideMm }) => ({
      what: `Clear diameter to ${shown.computed(toMm)}`,
      value: `⌀${shown.computed(wideMm)}`,
      note: '',
    })),
    ...(clear === null ? [] : [{ what: 'Clear diameter', value: clear, note: gap ?? '' }]),
    ...shape.parts.map(({ part, inHole, tooWideMm }, index) => ({
      what: `${index + 2} ${part.name}`,
      value: `${diameterOf(part.id, part.outsideDiameterMm)}, ${of(typed.length.get(part.id), part.lengthMm)} long`,
      note:
        clearMm === null
          ? ''
          : tooWideMm > 0
            ? `${shown.computed(tooWideMm)} too wide`
            : inHole
              ? 'passes'
              : 'stays outside',
    })),
    { what: 'Opening', value: opening, note: `on ${flats}` },
    ...(shape.protrusionMm === null
      ? []
      : [
          {
            what: 'Thread standing proud',
            value: of(typed.protrusion, shape.protrusionMm),
            note:
              shape.socket.innerDepthMm === null
                ? 'inner depth of the socket not given'
                : `inner depth ${shown.computed(shape.socket.innerDepthMm)}${
                    shape.protrusionMm > shape.socket.innerDepthMm
                      ? `, short by ${shown.computed(shape.protrusionMm - shape.socket.innerDepthMm)}`
                      : ''
                  }`,
          },
        ]),
  ];
  const swing = swingTexts(shape, (text, valueMm) => of(text, valueMm), typed);
  if (swing !== null) {
    if (swing.swing !== null) rows.push({ what: 'Swing', value: swing.swing, note: '' });
    rows.push({ what: 'Lever', value: swing.lever, note: swing.room ?? '' });
  }
  return {
    needed: `needed ${needed}`,
    stack: `stack ${shown.computed(lengthMm)}`,
    spare,
    hole,
    balloons: ['', ...shape.parts.map(({ part }) => diameterOf(part.id, part.outsideDiameterMm)), flats],
    parts,
    rows,
    swing,
    unit: shown.unit,
  };
}

function swingTexts(
  shape: StackShape,
  of: (text: string | undefined, valueMm: number) => string,
  typed: { lever: string | undefined; handleRadius: string | undefined },
): SwingTexts | null {
  const { swing } = shape;
  if (swing === null) return null;
  const { swingDeg, stepDeg, roomMm, leverMm } = swing;
  const short = swingDeg !== null && stepDeg > swingDeg + 1e-9;
  const long = roomMm !== null && leverMm !== null && leverMm > roomMm + 1e-6;
  return {
    swing:
      swingDeg === null
        ? null
        : `${swingDeg}° free, needs ${stepDeg}°${short ? `: short by ${stepDeg - swingDeg}°` : ''}`,
    lever: leverMm === null ? 'length not given' : of(typed.lever, leverMm),
    room:
      roomMm === null
        ? null
        : `room ${of(typed.handleRadius, roomMm)}${long && leverMm !== null ? `, too long by ${of(undefined, leverMm - roomMm)}` : ''}`,
    fails: short || long,
  };
}
