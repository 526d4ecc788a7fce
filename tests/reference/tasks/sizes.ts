/**
 * The head sizes that generated tasks are made of. The thread beside a size is a label that the planner never reads, and
 * the torques come from a smooth law of our own: nothing here is a published fact.
 */
import type { HeadForm, OpeningForm } from '../../../shared-types/plan.ts';

export type SizeKind = 'hexagon' | 'key' | 'lobe';

export interface HeadSize {
  kind: SizeKind;
  text: string;
  /** Across flats; of a lobe the size of a key about as strong. */
  mm: number;
  thread: string;
}

const metricHexagons: [mm: number, thread: string][] = [
  [7, 'M4'],
  [8, 'M5'],
  [10, 'M6'],
  [13, 'M8'],
  [15, 'M10'],
  [16, 'M10'],
  [17, 'M10'],
  [18, 'M12'],
  [19, 'M12'],
  [21, 'M14'],
  [22, 'M14'],
  [24, 'M16'],
  [27, 'M18'],
  [30, 'M20'],
  [34, 'M22'],
  [36, 'M24'],
  [41, 'M27'],
  [46, 'M30'],
];

const inchHexagons: [sixteenths: number, text: string, thread: string][] = [
  [5, '5/16 in', '10-32 UNF'],
  [6, '3/8 in', '1/4-28 UNF'],
  [7, '7/16 in', '1/4-28 UNF'],
  [8, '1/2 in', '5/16-24 UNF'],
  [9, '9/16 in', '3/8-24 UNF'],
  [10, '5/8 in', '7/16-20 UNF'],
  [11, '11/16 in', '7/16-20 UNF'],
  [12, '3/4 in', '1/2-20 UNF'],
  [13, '13/16 in', '9/16-18 UNF'],
  [14, '7/8 in', '1/2-13 UNC'],
  [15, '15/16 in', '5/8-18 UNF'],
  [16, '1 in', '5/8-18 UNF'],
  [17, '1-1/16 in', '5/8-11 UNC'],
  [18, '1-1/8 in', '3/4-16 UNF'],
  [20, '1-1/4 in', '3/4-10 UNC'],
  [21, '1-5/16 in', '7/8-14 UNF'],
  [24, '1-1/2 in', '1-12 UNF'],
];

const keys: [mm: number, text: string, thread: string][] = [
  [4, '4 mm', 'M5'],
  [5, '5 mm', 'M6'],
  [6, '6 mm', 'M8'],
  [8, '8 mm', 'M10'],
  [10, '10 mm', 'M12'],
  [12, '12 mm', 'M14'],
  [14, '14 mm', 'M16'],
  [17, '17 mm', 'M20'],
  [4.7625, '3/16 in', '1/4-28 UNF'],
  [6.35, '1/4 in', '5/16-24 UNF'],
  [7.9375, '5/16 in', '3/8-24 UNF'],
  [9.525, '3/8 in', '1/2-20 UNF'],
  [12.7, '1/2 in', '5/8-18 UNF'],
];

const lobes: [mm: number, text: string, thread: string][] = [
  [3.5, 'T25', 'M5'],
  [4, 'T27', 'M5'],
  [4.7, 'T30', 'M6'],
  [6, 'T40', 'M8'],
  [6.8, 'T45', 'M8'],
  [7.8, 'T50', 'M10'],
  [9.4, 'T55', 'M12'],
  [11.2, 'T60', 'M14'],
];

export const headSizes: HeadSize[] = [
  ...metricHexagons.map(([mm, thread]): HeadSize => ({ kind: 'hexagon', text: `${mm} mm`, mm, thread })),
  ...inchHexagons.map(([sixteenths, text, thread]): HeadSize => ({
    kind: 'hexagon',
    text,
    mm: (sixteenths * 25.4) / 16,
    thread,
  })),
  ...keys.map(([mm, text, thread]): HeadSize => ({ kind: 'key', text, mm, thread })),
  ...lobes.map(([mm, text, thread]): HeadSize => ({ kind: 'lobe', text, mm, thread })),
];

/** A torque about right for the size; invented. */
export const nominalNm = ({ kind, mm }: HeadSize): number => (kind === 'hexagon' ? 0.0115 : 0.1) * mm ** 3;

export const formsOf: Record<SizeKind, { heads: HeadForm[]; openings: OpeningForm[] }> = {
  hexagon: { heads: ['hex', 'hex', 'nut', 'heavy-hex', 'twelve-point'], openings: ['hex6', 'hex12'] },
  key: { heads: ['hex-socket'], openings: ['hexKey'] },
  lobe: { heads: ['hexalobular'], openings: ['hexalobular'] },
};

/** Drive squares by what they are sold for: sizes of a hexagon, torque, and how stout their parts are. Invented. */
export interface Square {
  name: '1/4' | '3/8' | '1/2' | '3/4';
  hexagonMm: [least: number, most: number];
  keyMm: [least: number, most: number];
  bodyMm: number;
  barMm: number;
  ratedNm: number;
  socketMm: number;
  deepMm: number;
}

export const squares: Square[] = [
  {
    name: '1/4',
    hexagonMm: [5, 14],
    keyMm: [3, 8],
    bodyMm: 12,
    barMm: 8,
    ratedNm: 60,
    socketMm: 25,
    deepMm: 50,
  },
  {
    name: '3/8',
    hexagonMm: [8, 22],
    keyMm: [4, 12],
    bodyMm: 17,
    barMm: 11,
    ratedNm: 180,
    socketMm: 30,
    deepMm: 64,
  },
  {
    name: '1/2',
    hexagonMm: [10, 34],
    keyMm: [5, 17],
    bodyMm: 22,
    barMm: 15,
    ratedNm: 520,
    socketMm: 38,
    deepMm: 80,
  },
  {
    name: '3/4',
    hexagonMm: [19, 50],
    keyMm: [12, 17],
    bodyMm: 33,
    barMm: 22,
    ratedNm: 1500,
    socketMm: 52,
    deepMm: 96,
  },
];

export const suits = (square: Square, { kind, mm }: HeadSize): boolean => {
  const [least, most] = kind === 'hexagon' ? square.hexagonMm : square.keyMm;
  return mm >= least && mm <= most;
};
