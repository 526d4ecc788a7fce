import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import { quantityIn } from '../../renderer/engine/units/index.ts';
import { catalogSchema } from '../../shared-types/plan.ts';
import { z } from '../../shared-types/schema.ts';
import { handbookRows, isPublished, readNotes } from './publishedFigures.ts';

const names = ['starter-inch', 'starter-metric', 'carry'] as const;
const fileSchema = z.strictObject({ about: z.array(z.string().min(20)).min(2), catalog: catalogSchema });

function read(name: string): unknown {
  return JSON.parse(readFileSync(new URL(`../../data/catalog/${name}.json`, import.meta.url), 'utf8'));
}

const files = names.map((name) => ({ name, file: fileSchema.parse(read(name)) }));
type Item = Record<string, unknown> & { id: string; notes?: string | undefined };
const itemsOf = (catalog: object): Item[] => Object.values(catalog).flat() as Item[];
const tools = files.slice(0, 2).flatMap(({ file }) => itemsOf(file.catalog));
const all = files.flatMap(({ file }) => itemsOf(file.catalog));
const lists = ['fasteners', 'sockets', 'extensions', 'drivers', 'torqueTools', 'carryGear', 'bags'] as const;

/** What the notes call each field that holds a figure. */
const words: Record<string, RegExp> = {
  mass: /\bmass\b/,
  volume: /\bvolume\b/,
  size: /\bsize\b/,
  length: /\blength\b/,
  innerDepth: /\binner depth\b/,
  outsideDiameter: /\boutside diameter\b/,
  ratedTorque: /\brated torque\b/,
  lever: /\blever\b/,
  stepDeg: /\bstep angle\b/,
  tethers: /\btethers\b/,
  increment: /\bincrement\b/,
  settings: /\bsettings\b/,
  max: /\bmax\b/,
  min: /\bmin\b/,
};
/** These are published wherever they stand; max and min may be. */
const publishedWords: Record<string, RegExp> = {
  drive: /^square /,
  driveIn: /^square /,
  driveOut: /^square /,
  opening: /^(opening|key|size) /,
  head: /^(width across flats|hex key) /,
  accuracyOfReading: /^accuracy /,
  max: /^(max|range) /,
  min: /^range /,
};
const noFigure = new Set(['id', 'name', 'notes', 'kind', 'thread', 'loosens', 'onHand', 'consumed']);

it.each(files)('$name has the shape of a catalog and no field the plan does not know', ({ name, file }) => {
  expect(file).toEqual(read(name));
});

it('has unique ids over all files', () => {
  const ids = all.map((item) => item.id);
  expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
  expect(ids.length).toBeGreaterThan(600);
});

it('holds only quantities and threads the engine reads', () => {
  const catalog = Object.fromEntries(
    lists.map((list) => [list, files.flatMap(({ file }): unknown[] => file.catalog[list])]),
  );
  const plan = planFrom({ catalog, outings: [], steps: [] });
  expect(plan.ignoredFields).toEqual([]);
  expect(plan.fasteners.size + plan.carried.size + plan.bags.size).toBe(all.length);
});

describe('published figures', () => {
  it('are found in the handbook under the document and row their notes name', () => {
    const missing = tools.flatMap((item) =>
      readNotes(item.notes ?? '')
        .published.filter((figure) => !isPublished(figure))
        .map((figure) => `${item.id}: ${figure.what} in ${figure.document}, row ${figure.row}`),
    );
    expect(missing).toEqual([]);
  });

  it('are the figures the item itself holds', () => {
    const wrong = tools.filter((item) =>
      readNotes(item.notes ?? '').published.some(({ what }) => !texts(item).some((text) => what.endsWith(text))),
    );
    expect(wrong.map((item) => item.id)).toEqual([]);
  });

  it('cannot be claimed for a number that the row does not print', () => {
    expect(isPublished({ what: 'opening 9/16 in', document: 'ASME/ANSI B18.2.2', row: '9/16' })).toBe(true);
    expect(isPublished({ what: 'opening 9/16 in', document: 'ASME/ANSI B18.2.2', row: '5/8' })).toBe(false);
    expect(isPublished({ what: 'opening 17 mm', document: 'ISO 272', row: 'M10' })).toBe(false);
  });

  it('give every torque tool the accuracy ISO 6789 prints for its maximum', () => {
    for (const tool of files.flatMap(({ file }) => file.catalog.torqueTools)) {
      const rule = quantityIn(tool.max, 'torque', 'N·m') > 10 ? 'above 10 N·m' : '10 N·m or less';
      const row = `permissible deviation, setting tool type II class A, range maximum ${rule}`;
      const [held] = handbookRows('ISO 6789', row);
      expect([tool.id, tool.accuracyOfReading * 100]).toEqual([tool.id, held?.['value_percent']]);
      expect(tool.notes).toContain(`(ISO 6789, row ${row})`);
    }
  });
});

describe('assumed figures', () => {
  it('are each named in the notes, as are the published ones: no figure stands without a word on where it comes from', () => {
    const unsaid = tools.flatMap((item) => {
      const { published, assumed } = readNotes(item.notes ?? '');
      return Object.keys(item)
        .filter((field) => !noFigure.has(field))
        .filter((field) => {
          const isPrinted = publishedWords[field] && published.some(({ what }) => publishedWords[field]?.test(what));
          return !isPrinted && !words[field]?.test(assumed);
        })
        .map((field) => `${item.id}: ${field}`);
    });
    expect(unsaid).toEqual([]);
  });

  it('are all there is of carry gear and bags', () => {
    for (const item of itemsOf(files[2]?.file.catalog ?? {})) expect(item.notes).toMatch(/^Assumed: every figure\./);
  });

  it("include two thirds of a published test torque as a socket's rated torque, rounded down and capped by its square", () => {
    const capNm: Record<string, number> = {
      '1/4 in': 30,
      '6.3 mm': 30,
      '3/8 in': 100,
      '10 mm': 100,
      '1/2 in': 300,
      '12.5 mm': 300,
      '3/4 in': 800,
      '20 mm': 800,
    };
    const rows = handbookTestTorques();
    for (const socket of files.flatMap(({ file }) => file.catalog.sockets)) {
      if (socket.opening.form !== 'hex6' && socket.opening.form !== 'hex12') continue;
      const sizeMm = quantityIn(socket.opening.size, 'length', 'mm');
      const [widthMm, testNm] = rows.findLast(([width]) => width <= sizeMm + 1e-9) ?? [0, 0];
      const [unit, step] = socket.ratedTorque.endsWith('N·m') ? (['N·m', 0.1] as const) : (['lbf·in', 1] as const);
      const limit = quantityIn(`${Math.min((testNm * 2) / 3, capNm[socket.drive] ?? 0)} N·m`, 'torque', unit);
      const rated = quantityIn(socket.ratedTorque, 'torque', unit);
      expect([socket.id, Math.floor(limit / step + 1e-9)]).toEqual([socket.id, Math.round(rated / step)]);
      expect(socket.notes).toContain(
        `the test torque ${testNm} N·m published for ${widthMm} mm (ISO 1711-1, row ${widthMm}`,
      );
    }
  });

  it('follow the stated rule for mass: steel filling a share of the cylinder, or mass by the lever', () => {
    const share = (item: Item) => {
      if (item['opening']) return /key|hexalobular/i.test(String(item['name'])) ? 0.35 : 0.6;
      return item['kind'] === 'rigid' ? 0.45 : 0.6;
    };
    const off: string[] = [];
    for (const item of tools.filter((tool) => typeof tool['outsideDiameter'] === 'string')) {
      const [lengthMm, diameterMm] = [item['length'], item['outsideDiameter']].map((text) =>
        quantityIn(String(text), 'length', 'mm'),
      );
      const expectedG = (Math.PI / 4) * (diameterMm ?? 0) ** 2 * (lengthMm ?? 0) * 7.85e-3 * share(item);
      if (Math.abs(quantityIn(String(item['mass']), 'mass', 'g') - expectedG) > 1.5) off.push(item.id);
    }
    for (const item of tools.filter((tool) => typeof tool['lever'] === 'string')) {
      const kgPerM = quantityIn(String(item['mass']), 'mass', 'kg') / quantityIn(String(item['lever']), 'length', 'm');
      if (kgPerM < 0.8 || kgPerM > 5.2) off.push(item.id);
    }
    expect(off).toEqual([]);
  });

  it('are owned up to at the head of every file', () => {
    for (const { file } of files) expect(file.about.join(' ')).toMatch(/our assumption/);
  });
});

/** Every text an item holds, also inside `opening` and `head`, with a range's two ends as one and the accuracy in per cent. */
function texts(item: Item): string[] {
  const flat = Object.values(item).flatMap((value) =>
    typeof value === 'object' && value !== null ? Object.values(value) : [value],
  );
  const range = `${String(item['min']).split(' ')[0]} to ${String(item['max'])}`;
  const accuracy = `${Math.round(Number(item['accuracyOfReading']) * 100)} % of reading`;
  return [...flat.filter((value) => typeof value === 'string'), range, accuracy];
}

function handbookTestTorques(): [number, number][] {
  const widths = Array.from({ length: 47 }, (_, index) => 5 + index / 2);
  return widths.flatMap((width) =>
    handbookRows('ISO 1711-1', String(width)).map((row): [number, number] => [width, Number(row['series_second_N_m'])]),
  );
}
