/** Invented plans and answers of any length for printing, and the program's fonts as the window hands them over. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { BagItem, BagResult } from '../../shared-types/bag.ts';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import type { PrintRequest } from '../../renderer/features/manifest/manifestDocument.ts';
import type { PrintedRevision } from '../../renderer/features/manifest/printedRevision.ts';
import { latinExtRange, mathRange, type PrintFace } from '../../renderer/features/manifest/printFonts.ts';

const fontFile = (name: string): string =>
  readFileSync(fileURLToPath(new URL(`../../node_modules/${name}`, import.meta.url))).toString('base64');
const next = '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next';

export const printFonts: PrintFace[] = [
  { family: 'Sheet', weight: '200 800', unicodeRange: null, data: fontFile(`${next}-latin-wght-normal.woff2`) },
  {
    family: 'Sheet',
    weight: '200 800',
    unicodeRange: latinExtRange,
    data: fontFile(`${next}-latin-ext-wght-normal.woff2`),
  },
  {
    family: 'SheetMono',
    weight: '200 800',
    unicodeRange: null,
    data: fontFile(
      '@fontsource-variable/atkinson-hyperlegible-mono/files/atkinson-hyperlegible-mono-latin-wght-normal.woff2',
    ),
  },
  {
    family: 'SheetMath',
    weight: '400',
    unicodeRange: mathRange,
    data: fontFile('@fontsource/noto-sans-math/files/noto-sans-math-latin-400-normal.woff2'),
  },
];

export interface PrintCase {
  /** Lines of the manifest. */
  lines: number;
  paper?: 'A4' | 'Letter';
  /** Name of the nth piece of gear. */
  nameOf?: (index: number) => string;
  idOf?: (index: number) => string;
  quantityOf?: (index: number) => number;
  taskName?: string;
  outingName?: string;
  result?: Partial<BagResult>;
  frozen?: PrintedRevision;
}

const socketId = 'S-18D';
const toolId = 'TT-2';

/** A plan whose gear makes up the lines, beside one torque tool and one socket where there is room for them. */
export function printRequest(wanted: PrintCase): PrintRequest {
  const {
    lines,
    nameOf = (index) => `Sealing cap, ring ${index}`,
    idOf = (index) => `G-${String(index).padStart(4, '0')}`,
    quantityOf = (index) => (index % 3) + 1,
  } = wanted;
  const tools = lines >= 2 ? 2 : 0;
  const gear = Array.from({ length: lines - tools }, (_, index) => ({
    id: idOf(index + 1),
    name: nameOf(index + 1),
    mass: `${20 + (index % 7) * 5} g`,
    notes: 'Invented: mass and number.',
    quantity: quantityOf(index + 1),
  }));
  const half = Math.ceil(gear.length / 2);
  const plan = planFrom({
    task: {
      id: 'SR-01',
      name: wanted.taskName ?? 'Azimuth drive change',
      site: 'Skua Rock light, all figures invented',
    },
    catalog: {
      fasteners: [
        { id: 'B', thread: '3/8-24 UNF-3A', head: { form: 'hex', acrossFlats: '9/16 in' }, notes: 'Invented.' },
      ],
      sockets: [
        {
          id: socketId,
          name: 'Socket 9/16 in deep',
          drive: '3/8 in',
          opening: { form: 'hex6', size: '9/16 in' },
          length: '2.1 in',
          outsideDiameter: '0.8 in',
          ratedTorque: '75 lbf·ft',
          mass: '0.152 kg',
          onHand: 1,
        },
      ],
      torqueTools: [
        {
          id: toolId,
          name: 'Torque tool 15–75 lbf·ft',
          drive: '3/8 in',
          min: '15 lbf·ft',
          max: '75 lbf·ft',
          increment: '0.5 lbf·ft',
          accuracyOfReading: 0.04,
          mass: '1.18 kg',
          onHand: 1,
        },
      ],
      carryGear: gear.map(({ quantity, ...item }) => ({ ...item, onHand: quantity })),
      bags: [
        { id: 'SR-L', name: 'Lead’s bag', mass: '0.4 kg', massMax: '400 kg' },
        { id: 'SR-S', name: 'Second’s bag' },
      ],
    },
    outings: [{ id: 'o1', name: wanted.outingName ?? 'outing 1', roles: ['Lead', 'Second'], bags: ['SR-L', 'SR-S'] }],
    steps:
      lines === 0
        ? []
        : [
            ...(tools === 0
              ? []
              : [
                  {
                    id: 'b-final',
                    name: 'Torque B1–B12, final pass',
                    outing: 'o1',
                    role: 'Lead',
                    action: 'tighten',
                    fastener: 'B',
                    count: 12,
                    callout: { min: '30 lbf·ft', max: '35 lbf·ft' },
                    calloutSource: 'Drawing 4, sheet 2 (invented)',
                    running: { min: '0.8 lbf·ft', max: '1.2 lbf·ft' },
                    runningIncluded: false,
                    watchOuts: ['Sharp edge under the flange.'],
                  },
                ]),
            {
              id: 'gear',
              name: 'Cap and seal',
              outing: 'o1',
              role: 'Second',
              action: 'use',
              gear: gear.map(({ id, quantity }) => ({ id, quantity })).slice(0, 6),
            },
          ],
  });
  const items: BagItem[] = [
    ...(tools === 0
      ? []
      : [
          { id: toolId, quantity: 1, bag: 'SR-L', because: ['b-final'] },
          { id: socketId, quantity: 1, bag: 'SR-L', because: ['b-final'] },
        ]),
    ...gear.map(({ id, quantity }, index) => ({
      id,
      quantity,
      bag: index < half ? 'SR-L' : 'SR-S',
      because: ['gear'],
    })),
  ];
  const massKg =
    (lines === 0 ? 0 : 0.4) +
    items.reduce((sum, { id, quantity }) => sum + quantity * (plan.carried.get(id)?.massKg ?? 0), 0);
  return {
    plan,
    result: {
      status: 'optimal',
      objective: { minimised: 'mass', value: massKg, unit: 'kg', bound: massKg, gap: 0 },
      outings: [
        {
          id: 'o1',
          massKg,
          items,
          steps:
            tools === 0
              ? []
              : [{ id: 'b-final', stack: [toolId, socketId], hold: null, setting: { value: 33.5, unit: 'lbf·ft' } }],
        },
      ],
      singleLoss: false,
      tolerance: 'nothing',
      wishes: { keep: [], forbid: [], spares: [] },
      unchecked: [{ rule: 'swingDeg', steps: ['b-final'] }],
      problems: [],
      infeasible: [],
      ignoredFields: [],
      ...wanted.result,
    },
    outing: 'o1',
    units: 'both',
    fileName: 'skua.json',
    paper: wanted.paper ?? 'A4',
    dataTime: '2026-11-25T10:42:00+01:00',
    appVersion: '0.1.0',
    person: 'I. Maro',
    fonts: printFonts,
    frozen: wanted.frozen,
  };
}
