/**
 * What no table holds has no value: a thousand questions beside, between and beyond the printed sizes, half of them within a step of
 * one, and none is answered. A seed makes them the same every time.
 */
import { describe, expect, it } from 'vitest';
import { refusalFrom, resultOf, told } from '../electron/headless/inProcess.ts';
import { openingLimits, type SocketAnswer } from '../../renderer/engine/socket/index.ts';
import { cellAt, printedTable, textAt } from './values/cells.ts';

/** A linear congruential generator: numbers from 0 to below 1. */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1_664_525 + 1_013_904_223) % 2 ** 32;
    return state / 2 ** 32;
  };
}

interface Asked {
  thread: string;
  system: 'metric' | 'unified';
  major: number;
  pitch: number;
}

const keysOf = {
  limits: [
    'prevailing-mil-dtl-45916-coarse',
    'prevailing-mil-dtl-45916-fine',
    'breakaway-army-coarse',
    'breakaway-army-fine',
    'friction-helicopter-army',
    'reuse-faa-ac-43.13-coarse',
    'reuse-faa-ac-43.13-fine',
    'reuse-generator-set-army',
    'prevailing-iso-2320-class-04',
  ],
  torquetable: [
    'torque-faa-ac-43.13-coarse',
    'torque-faa-ac-43.13-fine',
    'torque-nasa-a286',
    'torque-nasa-cres',
    'torque-nasa-small',
    'torque-army-general',
    'torque-army-table-f1',
  ],
};

const numbers: Record<string, number> = { 2: 0.086, 4: 0.112, 6: 0.138, 8: 0.164, 10: 0.19 };

/** "1/4-28", "0.250-28", "10-32", "7/16", "M8", "M8x1" as diameter and pitch; no pitch where none is printed. */
function sizeOf(printed: string): { system: 'metric' | 'unified'; major: number; pitch: number | null } {
  const metric = /^M([\d.]+)(?:x([\d.]+))?$/.exec(printed);
  if (metric)
    return { system: 'metric', major: Number(metric[1]), pitch: metric[2] === undefined ? null : Number(metric[2]) };
  const [, name = '', threads] = /^(.+?)(?:-(\d\d?))?$/.exec(printed.replace(/^(\d+-\d+\/\d+)$/, '$1')) ?? [];
  const mixed = /^(?:(\d+)-)?(\d+)\/(\d+)$/.exec(name);
  const major = mixed ? Number(mixed[1] ?? 0) + Number(mixed[2]) / Number(mixed[3]) : (numbers[name] ?? Number(name));
  return { system: 'unified', major, pitch: threads === undefined ? null : 1 / Number(threads) };
}

/** Coarse pitches as ISO 272 prints them beside its widths; M7 is not in it, and 1 mm in ISO 262. */
const coarsePitches: Record<string, number> = Object.fromEntries([
  ['M7', 1],
  ...printedTable('across-flats-iso-272').rows.map((row) => [cellAt(row, 'thread'), Number(cellAt(row, 'pitch_mm'))]),
]);

/** What the tables of a command print. A metric thread without pitch is the coarse one; a size without pitch is any thread. */
function printedSizes(command: keyof typeof keysOf) {
  return keysOf[command].flatMap((key) =>
    printedTable(key).rows.map((row) => {
      const thread = textAt(row, 'thread');
      const size = sizeOf(thread ?? cellAt(row, 'size'));
      return thread === undefined || size.pitch !== null
        ? size
        : { ...size, pitch: coarsePitches[thread] ?? Number.NaN };
    }),
  );
}

/** Dash numbers of the helicopter nuts: number 10, then sixteenths. */
const dashDiameters = [0.19, ...[4, 5, 6, 7, 8, 9].map((sixteenths) => sixteenths / 16)];

function draw(random: () => number): Asked {
  const between = (low: number, high: number, step: number): number =>
    Math.round((low + random() * (high - low)) / step) * step;
  if (random() < 0.5) {
    // Half of the diameters are printed ones with another pitch, half lie beside or beyond.
    const major = random() < 0.5 ? between(3, 24, 1) : between(2, 90, 0.5);
    const pitch = between(0.25, Math.min(6, major / 3), 0.25);
    return { thread: `M${major}x${pitch}`, system: 'metric', major, pitch };
  }
  const step = random() < 0.5 ? 1 / 16 : 1 / 32;
  const major = between(3 / 32, 3, step);
  const threads = Math.round(between(Math.ceil(3 / major), Math.min(80, Math.ceil(24 / major)), 1));
  return { thread: `${major}"-${threads}`, system: 'unified', major, pitch: 1 / threads };
}

function isPrinted(asked: Asked, sizes: ReturnType<typeof printedSizes>, bySizeAlone: readonly number[]): boolean {
  const near = (a: number, b: number): boolean => Math.abs(a - b) < 0.000_51;
  const found = sizes.some(
    (size) =>
      size.system === asked.system &&
      near(size.major, asked.major) &&
      (size.pitch === null || Math.abs(size.pitch - asked.pitch) < 1e-9),
  );
  return found || (asked.system === 'unified' && bySizeAlone.some((major) => near(major, asked.major)));
}

function outside(count: number, seed: number, inside: (asked: Asked) => boolean): Asked[] {
  const random = generator(seed);
  const drawn: Asked[] = [];
  while (drawn.length < count) {
    const asked = draw(random);
    if (!inside(asked)) drawn.push(asked);
  }
  return drawn;
}

describe('a thread that no table prints', () => {
  const locking = printedSizes('limits');
  const torque = printedSizes('torquetable');

  it('has no limit by any document, in 400 questions', async () => {
    const asked = outside(400, 1, (one) => isPrinted(one, locking, []));
    expect(asked.filter(({ thread }) => /^M(8|10|12|16|20)x/.test(thread)).length).toBeGreaterThan(5);
    const documents = [
      'MIL-DTL-45916C',
      'TM 1-1500-204-23-6',
      'TM 55-1520-240-23-1',
      'FAA AC 43.13-1B',
      'TM 9-6115-604-34',
      'ISO 2320',
    ];
    for (const [index, { thread }] of asked.entries()) {
      const { limits, note } = await resultOf<{ limits: unknown[]; note: string }>('limits', thread);
      expect({ thread, limits }).toEqual({ thread, limits: [] });
      expect(note).toContain('No published value held');
      const document = documents[index % documents.length] ?? '';
      const refused = await refusalFrom('limits', thread, '--locking', document);
      expect(refused).toMatchObject({ code: 'not-held', field: 'thread' });
      expect(refused.message).toContain('Held are');
    }
  });

  it('has no torque band, in 400 questions', async () => {
    for (const { thread } of outside(400, 2, (one) => isPrinted(one, torque, dashDiameters))) {
      const { rows, note } = await resultOf<{ rows: unknown[]; note: string }>('torquetable', thread);
      expect({ thread, rows }).toEqual({ thread, rows: [] });
      expect(note).toContain('No published value held');
    }
  });
});

describe('a head or an opening that no table prints', () => {
  const widths = ['hex-head-iso-4014', 'hex-nut-iso-4032', 'across-flats-iso-272', 'socket-head-iso-4762'].flatMap(
    (key) => printedTable(key).rows.map((row) => sizeOf(cellAt(row, 'thread'))),
  );
  const inchHeads = ['hex-cap-screw-asme-b18.2.1', 'heavy-hex-asme', 'socket-head-asme-b18.3'].flatMap((key) =>
    printedTable(key).rows.map((row) => cellAt(row, 'size')),
  );
  const heads = ['hex', 'nut', 'heavy-hex', 'hex-socket'];

  it('is refused by its diameter, in 150 questions', async () => {
    const held = (one: Asked): boolean =>
      widths.some((size) => size.system === one.system && Math.abs(size.major - one.major) < 0.01) ||
      inchHeads.some((size) => Math.abs((sizeOf(size.replace('#', '')).major || 0) - one.major) < 0.000_51) ||
      Math.abs(one.major - Math.round(one.major * 16) / 16) < 1e-9;
    for (const [index, { thread }] of outside(150, 3, held).entries()) {
      const answer = await told<SocketAnswer>('socket', thread, '--head', heads[index % heads.length] ?? '');
      expect({ thread, answer }).toMatchObject({ thread, answer: { exit: 2, error: { code: 'not-held' } } });
    }
  });

  it('has no opening limits, in 50 questions', () => {
    const random = generator(4);
    const printed = printedTable('wrench-openings-asme-b18.2.2').rows.map((row) => Number(row['nominal_in']) * 25.4);
    let asked = 0;
    while (asked < 50) {
      const nominalMm = 3 + random() * 85;
      if (printed.some((mm) => Math.abs(mm - nominalMm) < 0.011)) continue;
      expect({ nominalMm, found: openingLimits({ nominalMm }) }).toEqual({ nominalMm, found: null });
      asked += 1;
    }
  });
});
