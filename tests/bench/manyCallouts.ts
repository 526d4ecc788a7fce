/** Callouts as drawings have them, made up from a seed: threads of several series, bands in several units, most columns now and then. */
import { xorshift128plus } from 'pure-rand/generator/xorshift128plus';
import { uniformInt } from 'pure-rand/distribution/uniformInt';

const columns = [
  'id',
  'thread',
  'torqueMin',
  'torqueMax',
  'torqueAlt',
  'strength',
  'head',
  'wrench',
  'locking',
  'runningMin',
  'runningMax',
  'breakawayMin',
  'runningIncluded',
  'lubrication',
  'nutFactor',
  'frictionThread',
  'frictionBearing',
  'bearingDiameter',
  'scatter',
  'engagement',
  'internalUltimate',
  'preloadMin',
  'preloadMax',
  'toolAccuracy',
  'sheet',
] as const;

const threads: { name: string; nm: number; strength: string; wrench: string; unit: string }[] = [
  { name: '1/4-28 UNF-3A', nm: 7, strength: 'SAE J429 grade 5', wrench: '7/16 in', unit: 'lbf·in' },
  { name: '5/16-24', nm: 13, strength: 'SAE J429 grade 8', wrench: '1/2 in', unit: 'lbf·in' },
  { name: '3/8-24 UNF', nm: 22, strength: 'SAE J429 grade 5', wrench: '9/16 in', unit: 'lbf·ft' },
  { name: '1/2-13 UNC-2A', nm: 60, strength: 'SAE J429 grade 5', wrench: '3/4 in', unit: 'lbf·ft' },
  { name: '#10-32', nm: 2.6, strength: 'A-286', wrench: '3/8 in', unit: 'lbf·in' },
  { name: '7/16-20', nm: 45, strength: 'SAE J429 grade 8', wrench: '5/8 in', unit: 'lbf·ft' },
  { name: 'M6', nm: 9, strength: '8.8', wrench: '10 mm', unit: 'N·m' },
  { name: 'M8x1.25', nm: 22, strength: '10.9', wrench: '13 mm', unit: 'N·m' },
  { name: 'M10', nm: 45, strength: '8.8', wrench: '16 mm', unit: 'N·m' },
  { name: 'M12x1.75-6g', nm: 80, strength: 'A2-70', wrench: '18 mm', unit: 'N·m' },
];

const perUnit: Record<string, number> = { N·m: 1, lbf·in: 0.1129848290276167, lbf·ft: 12 * 0.1129848290276167 };

/** A CSV of so many callouts; the same for the same seed. */
export function manyCallouts(count: number, seed: number): string {
  const draws = xorshift128plus(seed);
  const whole = (below: number): number => uniformInt(draws, 0, below - 1);
  const between = (least: number, most: number): number => least + ((most - least) * whole(1_000_000)) / 1_000_000;
  const now = (share: number): boolean => whole(1000) < share * 1000;
  const lines = [columns.join(',')];
  for (let index = 0; index < count; index += 1) {
    const thread = threads[whole(threads.length)];
    if (thread === undefined) throw new Error('no thread');
    const size = perUnit[thread.unit] ?? 1;
    const middle = (thread.nm / size) * between(0.7, 1.4);
    const [min, max] = [middle * between(0.86, 0.99), middle * between(1.01, 1.14)].map((value) => digits(value));
    const cells: Partial<Record<(typeof columns)[number], string>> = {
      id: `C${index + 1}`,
      thread: thread.name,
      torqueMin: `${min} ${thread.unit}`,
      torqueMax: `${max} ${thread.unit}`,
      sheet: `"Sheet ${1 + whole(40)}, zone ${whole(9)}"`,
    };
    if (now(0.4)) {
      const other = thread.unit === 'N·m' ? 'lbf·ft' : 'N·m';
      const factor = size / (perUnit[other] ?? 1);
      cells.torqueAlt = `${digits(Number(min) * factor)}-${digits(Number(max) * factor)} ${other}`;
    }
    if (now(0.7)) cells.strength = thread.strength;
    if (now(0.5)) {
      cells.head = 'hex';
      cells.wrench = now(0.9) ? thread.wrench : '17 mm';
    }
    if (now(0.3)) {
      cells.locking = thread.unit === 'N·m' ? 'ISO 2320' : 'MIL-DTL-45916C';
      cells.runningMin = `${digits(0.02 * middle)} ${thread.unit}`;
      cells.runningMax = `${digits(between(0.03, 0.3) * middle)} ${thread.unit}`;
      cells.breakawayMin = `${digits(between(0.01, 0.1) * middle)} ${thread.unit}`;
      cells.runningIncluded = ['yes', 'no', ''][whole(3)] ?? '';
    }
    if (now(0.3)) cells.lubrication = ['dry', 'greased', 'lubricated'][whole(3)] ?? '';
    if (now(0.4)) cells.nutFactor = digits(between(0.12, 0.25));
    else if (now(0.3)) {
      cells.frictionThread = digits(between(0.08, 0.2));
      cells.frictionBearing = digits(between(0.08, 0.2));
      cells.bearingDiameter = `${digits(between(8, 20))} mm`;
    }
    if (now(0.3)) cells.scatter = ['25 %', '0.3', '35 %'][whole(3)] ?? '';
    if (now(0.2)) {
      cells.engagement = `${digits(between(3, 14))} mm`;
      cells.internalUltimate = `${digits(between(200, 900))} MPa`;
    }
    if (now(0.2)) cells.preloadMin = `${digits(between(0.5, 8))} kN`;
    if (now(0.2)) cells.preloadMax = `${digits(between(8, 60))} kN`;
    if (now(0.4)) cells.toolAccuracy = ['4 %', '6 %', '3 %'][whole(3)] ?? '';
    lines.push(columns.map((column) => cells[column] ?? '').join(','));
  }
  return `${lines.join('\r\n')}\r\n`;
}

/** Four significant digits, as a drawing has them. */
function digits(value: number): string {
  return String(Number(value.toPrecision(4)));
}
