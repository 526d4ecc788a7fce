/** Every drawing of the starter catalog, read back out of its SVG: its figures are the record's, in words and in length. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import carry from '../../../data/catalog/carry.json' with { type: 'json' };
import inch from '../../../data/catalog/starter-inch.json' with { type: 'json' };
import metric from '../../../data/catalog/starter-metric.json' with { type: 'json' };
import { itemsOfCatalog } from '../../../renderer/engine/records/recordsOfPlan.ts';
import { squareSideMm } from '../../../renderer/engine/plan/squares.ts';
import { hexalobularDrive } from '../../../renderer/engine/socket/index.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';
import { quantityIn } from '../../../renderer/engine/units/index.ts';
import { ItemDrawing } from '../../../renderer/features/catalog/drawing/ItemDrawing.tsx';
import type { Item } from '../../../shared-types/records/item.ts';
import { catalogSchema } from '../../../shared-types/plan.ts';

const starter = [inch, metric, carry].flatMap(({ catalog }) => {
  let next = 0;
  return itemsOfCatalog(catalogSchema.parse(catalog), { shelf: 'starter', newId: () => `i${(next += 1)}` }).items;
});

/** A plan has no offset heads and no pockets: each starter extension as one with an offset, each starter bag with pockets. Invented figures. */
const invented = starter.flatMap((item, index): Item[] => {
  if (item.kind === 'extension')
    return [
      {
        ...item,
        code: `${item.code}-oh`,
        form: 'offset-head',
        offset: index % 2 === 0 ? `${20 + index} mm` : '1.5 in',
      },
    ];
  return item.kind === 'bag' ? [{ ...item, code: `${item.code}-p`, pockets: 1 + (index % 6) }] : [];
});
const items = [...starter, ...invented];

interface Read {
  /** Each dimension as it is written, with its length by the drawing's own scale bar. */
  dimensions: { text: string; mm: number }[];
  texts: string[];
  /** Widths of the outlines that stand for a thing, or their heights, by the drawing's own scale bar. */
  widthsMm: (of: string, upright?: boolean) => number[];
}

function readSvg(markup: string): Read {
  const bars = [...markup.matchAll(/<rect class="[^"]*scale[^"]*" x="[^"]*" y="[^"]*" width="([\d.]+)"/g)];
  const [, said = '', unit = ''] = /0 to ([\d.]+) (mm|in)</.exec(markup) ?? [];
  const barPx = bars.reduce((sum, [, width = '']) => sum + Number(width), 0);
  const mmPerPx = quantityIn(`${said} ${unit}`, 'length', 'mm') / barPx;
  const dimensions = [...markup.matchAll(/<g data-dimension="([^"]*)">(.*?)<\/g>/gs)].map(
    ([, text = '', inner = '']) => {
      const dots = [...inner.matchAll(/cx="([\d.]+)"/g)].map(([, x]) => Number(x));
      const line = /d="M([\d.]+) [\d.]+H([\d.]+)"/.exec(inner);
      const [from = NaN, to = NaN] = dots.length === 2 ? dots : [Number(line?.[1]), Number(line?.[2])];
      return { text, mm: (to - from) * mmPerPx };
    },
  );
  const texts = [...markup.matchAll(/<text [^>]*>(.*?)<\/text>/gs)].map(([, inner = '']) =>
    inner
      .replaceAll(/<[^>]*>/g, ' ')
      .replaceAll(/\s+/g, ' ')
      .trim(),
  );
  const widthsMm = (of: string, upright = false): number[] =>
    [...markup.matchAll(new RegExp(`<path d="([^"]*)"[^>]* data-of="${of}"`, 'g'))].map(([, d = '']) => {
      // A circle begins at its left and says its width; anything else is a row of corners.
      const [, across] = /^M[-\d.]+ [-\d.]+a[\d.]+ [\d.]+ 0 1 0 ([\d.]+) 0/.exec(d) ?? [];
      const xs = [...d.matchAll(/[ML]([-\d.]+) ([-\d.]+)/g)].map(([, x, y]) => Number(upright ? y : x));
      return (across === undefined ? Math.max(...xs) - Math.min(...xs) : Number(across)) * mmPerPx;
    });
  return { dimensions, texts, widthsMm };
}

const kept = new Map<Item, string>();
function drawn(item: Item): string {
  const known = kept.get(item);
  if (known !== undefined) return known;
  const made = renderToStaticMarkup(createElement(ItemDrawing, { item, units: 'as-written' }));
  kept.set(item, made);
  return made;
}

/** What the record says that the drawing must say, and whether it is drawn as a dimension. */
function due(item: Item): { words: string; dimension?: string }[] {
  switch (item.kind) {
    case 'socket':
      return [
        { words: item.length, dimension: item.length },
        ...(item.innerDepth === undefined ? [] : [{ words: `${item.innerDepth} deep`, dimension: item.innerDepth }]),
        { words: `⌀${item.outsideDiameter}` },
        { words: `□ ${item.drive}` },
        { words: item.opening.size },
      ];
    case 'extension':
      return [
        { words: item.length, dimension: item.length },
        { words: `⌀${item.outsideDiameter}` },
        { words: `□ ${item.driveIn}` },
        { words: `□ ${item.driveOut}` },
        ...(item.offset === undefined ? [] : [{ words: item.offset, dimension: item.offset }]),
      ];
    case 'driver':
    case 'torque-tool':
      return [
        { words: `□ ${item.drive}` },
        ...(item.lever === undefined ? [] : [{ words: item.lever, dimension: item.lever }]),
      ];
    case 'fastener':
      return [
        {
          words: item.head.acrossFlats,
          dimension:
            item.head.form === 'hexalobular'
              ? `${hexalobularDrive({ size: item.head.acrossFlats }).referenceAMm} mm`
              : item.head.acrossFlats,
        },
        { words: item.thread },
        ...(item.length === undefined ? [] : [{ words: item.length, dimension: item.length }]),
      ];
    case 'gear':
      return [
        ...(item.size === undefined ? [] : [{ words: item.size, dimension: item.size }]),
        ...(item.volume === undefined ? [] : [{ words: item.volume }]),
      ];
    case 'bag':
      return [
        ...(item.sizeMax === undefined ? [] : [{ words: item.sizeMax, dimension: item.sizeMax }]),
        ...(item.volumeMax === undefined ? [] : [{ words: item.volumeMax }]),
        ...(item.pockets === undefined ? [] : [{ words: item.pockets === 1 ? '1 pocket' : `${item.pockets} pockets` }]),
      ];
  }
}

describe('the drawings of the starter catalog', () => {
  it('are of every item of every kind', () => {
    expect(items.length).toBeGreaterThan(300);
    expect(new Set(items.map(({ kind }) => kind)).size).toBe(7);
    expect(invented.length).toBeGreaterThan(10);
    expect(items.filter((item) => due(item).length === 0)).toEqual([]);
    const without = items.filter((item) => due(item).length > 0 && !drawn(item).includes('<svg'));
    expect(without.map(({ code }) => code)).toEqual([]);
  });

  it('say the record’s own figures, each as long as it says by the drawing’s scale bar', () => {
    const wrong: string[] = [];
    let read = 0;
    for (const item of items) {
      const asked = due(item);
      if (asked.length === 0) continue;
      const { dimensions, texts } = readSvg(drawn(item));
      for (const { words, dimension } of asked) {
        read += 1;
        if (dimension === undefined) {
          if (!texts.some((text) => text.includes(words))) wrong.push(`${item.code}: ${words} in ${texts.join(' | ')}`);
          continue;
        }
        const found = dimensions.find(({ text }) => text === words);
        const wanted = quantityIn(dimension, 'length', 'mm');
        if (found === undefined || !(Math.abs(found.mm - wanted) < 1e-6 * wanted))
          wrong.push(`${item.code}: ${words} is drawn ${found?.mm ?? 'nowhere'} mm`);
      }
      // And no dimension that the record does not have.
      for (const { text } of dimensions)
        if (!asked.some(({ words }) => words === text)) wrong.push(`${item.code}: ${text} is not the record’s`);
    }
    expect(wrong).toEqual([]);
    expect(read).toBeGreaterThan(1000);
  });

  it('have body, square and opening as wide as the record says', () => {
    const wrong: string[] = [];
    const held = (item: Item, of: string, widths: readonly number[], wantedMm: number, withinMm = 0.03): void => {
      // Outlines are kept to a hundredth of a pixel, which is more of a millimetre the longer the thing is.
      if (widths.length === 0 || widths.some((mm) => Math.abs(mm - wantedMm) > withinMm))
        wrong.push(`${item.code}: ${of} ${widths.join(', ')} where ${wantedMm} mm is due`);
    };
    for (const item of items) {
      if (item.kind === 'fastener') {
        const { widthsMm } = readSvg(drawn(item));
        held(item, 'thread', widthsMm('thread'), readThread(item.thread).majorMm);
        const { form, acrossFlats } = item.head;
        const isHexagon = ['hex', 'heavy-hex', 'nut', 'hex-socket'].includes(form);
        if (isHexagon) held(item, 'head', widthsMm('head'), quantityIn(acrossFlats, 'length', 'mm'));
      }
      if (item.kind === 'gear' || item.kind === 'bag') {
        const { widthsMm } = readSvg(drawn(item));
        const [size, volume] = item.kind === 'gear' ? [item.size, item.volume] : [item.sizeMax, item.volumeMax];
        const longMm = quantityIn(size ?? '', 'length', 'mm');
        held(item, item.kind, widthsMm(item.kind), longMm, 0.1);
        // A block of its volume with a square end: side² × length.
        const acrossMm = Math.min(longMm, Math.sqrt((quantityIn(volume ?? '', 'volume', 'L') * 1e6) / longMm));
        held(item, `${item.kind}, other side`, widthsMm(item.kind, true), acrossMm, 0.1);
        const pockets = item.kind === 'bag' ? (item.pockets ?? 1) : 1;
        if (widthsMm('pocket').length !== pockets - 1) wrong.push(`${item.code}: ${widthsMm('pocket').length} lines`);
        continue;
      }
      if (item.kind === 'extension' && item.form === 'offset-head') {
        const { widthsMm } = readSvg(drawn(item));
        held(item, 'boss', widthsMm('boss'), quantityIn(item.outsideDiameter, 'length', 'mm'));
        held(item, 'side', widthsMm('side'), quantityIn(item.length, 'length', 'mm'), 0.05);
        held(item, 'web', widthsMm('web'), quantityIn(item.offset ?? '', 'length', 'mm'), 0.05);
        held(item, 'square out', widthsMm('square out'), squareSideMm(quantityIn(item.driveOut, 'length', 'mm')));
        continue;
      }
      if (item.kind !== 'socket' && item.kind !== 'extension') continue;
      const { widthsMm } = readSvg(drawn(item));
      held(item, 'body', widthsMm('body'), quantityIn(item.outsideDiameter, 'length', 'mm'));
      if (item.kind !== 'socket') continue;
      held(item, 'square', widthsMm('square').slice(-1), squareSideMm(quantityIn(item.drive, 'length', 'mm')));
      const { form, size } = item.opening;
      // Six lobes stand with a tip on top, hexagons with a flat.
      if (form === 'hexalobular')
        held(item, 'opening', widthsMm('opening', true), hexalobularDrive({ size }).referenceAMm);
      else held(item, 'opening', widthsMm('opening'), quantityIn(size, 'length', 'mm') / Math.cos(Math.PI / 6));
    }
    expect(wrong).toEqual([]);
  });

  it('differ from a record of another length', () => {
    const socket = items.find(({ kind }) => kind === 'socket');
    if (socket?.kind !== 'socket') throw new Error('no socket');
    const { dimensions } = readSvg(drawn({ ...socket, length: '99 mm' }));
    expect(dimensions.map(({ text }) => text)).toContain('99 mm');
    expect(dimensions.find(({ text }) => text === '99 mm')?.mm).toBeCloseTo(99, 6);
  });

  it('say in words what they lack the figures for', () => {
    const of = (kind: Item['kind']): Item => {
      const found = items.find((item) => item.kind === kind);
      if (found === undefined) throw new Error(`no ${kind}`);
      return found;
    };
    const said = (item: object): string => drawn(item as Item).replaceAll(/<[^>]*>/g, '');
    expect(said({ ...of('gear'), size: undefined })).toBe('Not drawn: its greatest extent is not given.');
    expect(said({ ...of('bag'), sizeMax: undefined })).toBe('Not drawn: the longest piece it takes is not given.');
    expect(said({ ...of('gear'), size: 'long' })).toBe('Not drawn: its sizes cannot be read.');
    expect(said({ ...of('gear'), volume: undefined })).toContain('assumed 0.55 of that (common practice, no source)');
    expect(said({ ...of('bag'), pockets: 90 })).toContain('too many pockets to be drawn');
    const head = invented.find(({ kind }) => kind === 'extension');
    const { dimensions } = readSvg(drawn({ ...head, offset: undefined } as Item));
    expect(dimensions).toHaveLength(1);
    expect(said({ ...head, offset: undefined })).toContain('the offset is not given');
  });
});
