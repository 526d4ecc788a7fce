import { describe, expect, test } from 'vitest';
import { stackShape, type StackShape } from '../../renderer/components/StackDrawing/stackShape.ts';
import { onPaper, onPartOfPaper, stackLayout } from '../../renderer/components/StackDrawing/stackLayout.ts';
import { stackTexts } from '../../renderer/components/StackDrawing/stackTexts.ts';
import { swingLayout } from '../../renderer/components/StackDrawing/swingLayout.ts';
import { stackDrawing as printedDrawing } from '../../renderer/features/cards/drawings.ts';
import { StackDrawing } from '../../renderer/components/StackDrawing/StackDrawing.tsx';
import { drawingPlan, drawnCases, stepOf, type DrawnCase } from './drawingPlan.ts';
import { overlaps, shown, textBoxes } from './shown.tsx';

function shapeOf({ step, stack }: Pick<DrawnCase, 'step' | 'stack'>): StackShape {
  const shaped = stackShape(drawingPlan, stepOf(step), stack);
  if ('reason' in shaped) throw new Error(shaped.reason);
  return shaped.shape;
}

function layoutOf(drawn: Pick<DrawnCase, 'step' | 'stack'>, widthPx = 800) {
  const shape = shapeOf(drawn);
  return stackLayout(shape, stackTexts(drawingPlan, stepOf(drawn.step), drawn.stack, shape, 'both'), widthPx);
}

const pathNumbers = (d: string): number[] => [...d.matchAll(/-?\d+(?:\.\d+)?/g)].map(([n]) => Number(n));
const xs = (d: string): number[] => pathNumbers(d).filter((_, index) => index % 2 === 0);
const ys = (d: string): number[] => pathNumbers(d).filter((_, index) => index % 2 === 1);
const inchMm = 25.4;

describe('the shape of a stack', () => {
  test('a stack longer than the depth stands out of the hole by what it has to spare', () => {
    const shape = shapeOf({ step: '11', stack: ['R-38', 'X-06', 'S-18D'] });
    expect(shape.lengthMm).toBeCloseTo(8.1 * inchMm, 9);
    expect(shape.spareMm).toBeCloseTo(1.66 * inchMm, 9);
    expect(shape.faceMm).toBeCloseTo(-1.66 * inchMm, 9);
    expect(shape.parts.at(-1)?.endMm).toBeCloseTo(6.44 * inchMm, 9);
  });

  test('a stack too short stops at the mouth and leaves its shortfall before the head', () => {
    const shape = shapeOf({ step: '12', stack: ['R-38', 'X-06', 'S-18D'] });
    expect(shape.faceMm).toBe(0);
    expect(shape.spareMm).toBeCloseTo(-0.75 * inchMm, 9);
    expect(shape.parts.at(-1)?.endMm).toBeCloseTo(8.1 * inchMm, 9);
  });

  test('equal lengths in inches are equal, whatever the doubles say', () => {
    const shape = shapeOf({ step: '15', stack: ['R-38', 'X-06', 'S-18D'] });
    expect(shape.spareMm).toBe(0);
    expect(shape.gapMm).toBeCloseTo(0, 9);
    expect(shape.parts.every(({ tooWideMm }) => tooWideMm === 0)).toBe(true);
  });

  test('only parts that begin before the depth have to pass the hole', () => {
    const shape = shapeOf({ step: '13', stack: ['R-38', 'X-06', 'X-06', 'X-03', 'S-18D'] });
    expect(shape.parts.map(({ inHole }) => inHole)).toEqual([false, false, true, true]);
  });

  test('a part wider than the hole jams by the difference', () => {
    const shape = shapeOf({ step: '11', stack: ['R-38', 'X-06', 'S-18W'] });
    expect(shape.parts.map(({ tooWideMm }) => tooWideMm > 0)).toEqual([false, true]);
    expect(shape.parts[1]?.tooWideMm).toBeCloseTo(0.06 * inchMm, 9);
  });

  test('what cannot be drawn says why', () => {
    expect(stackShape(drawingPlan, stepOf('50'), [])).toEqual({ reason: expect.stringContaining('by hand') });
    expect(stackShape(drawingPlan, stepOf('11'), [])).toEqual({ reason: 'No stack to draw.' });
    expect(stackShape(drawingPlan, stepOf('11'), ['R-38', 'nowhere', 'S-18D'])).toEqual({
      reason: expect.stringContaining('"nowhere"'),
    });
    expect(stackShape(drawingPlan, stepOf('11'), ['R-38', 'X-06'])).toEqual({
      reason: expect.stringContaining('does not run from a tool to a socket'),
    });
  });
});

describe('the layout', () => {
  test.each(drawnCases)('$name: lengths and diameters are to one scale', (drawn) => {
    const shape = shapeOf(drawn);
    const layout = layoutOf(drawn);
    for (const { part } of shape.parts) {
      const body = layout.outlines
        .filter(({ of, ink, d }) => of === part.id && ink === 'visible' && !d.includes('a'))
        .map(({ d }) => d);
      const left = Math.min(...body.flatMap(xs));
      const right = Math.max(...body.flatMap(xs));
      const copies = shape.parts.filter((other) => other.part.id === part.id).length;
      if (copies === 1) expect((right - left) / layout.pxPerMm).toBeCloseTo(part.lengthMm, 0);
      const high = Math.max(...body.flatMap(ys)) - Math.min(...body.flatMap(ys));
      expect(high / layout.pxPerMm, `${part.id} across`).toBeCloseTo(part.outsideDiameterMm, 0);
    }
  });

  test('a shortfall is filled exactly from the socket’s end to the depth', () => {
    const layout = layoutOf({ step: '12', stack: ['R-38', 'X-06', 'S-18D'] });
    const short = layout.outlines.find(({ of }) => of === 'shortfall');
    const x = xs(short?.d ?? '');
    expect(short?.fill).toBe('short');
    expect((Math.max(...x) - Math.min(...x)) / layout.pxPerMm).toBeCloseTo(0.75 * inchMm, 1);
    expect(layout.dimensions.find(({ filled }) => filled)?.text.lines).toEqual(['short by 0.75 in (19.1 mm)']);
  });

  test('a stack that reaches has no filled shortfall, and one that passes no jam', () => {
    const { outlines } = layoutOf({ step: '11', stack: ['R-38', 'X-06', 'S-18D'] });
    expect(outlines.filter(({ of }) => of === 'shortfall' || of === 'jam')).toEqual([]);
    const jams = layoutOf({ step: '11', stack: ['R-38', 'X-06', 'S-18W'] }).outlines.filter(({ of }) => of === 'jam');
    expect(jams).toHaveLength(2);
  });

  test('a stud longer than the socket is deep is filled over the difference', () => {
    const layout = layoutOf({ step: '44', stack: ['R-38', 'S-13'] });
    const x = xs(layout.outlines.find(({ of }) => of === 'stud jam')?.d ?? '');
    expect((Math.max(...x) - Math.min(...x)) / layout.pxPerMm).toBeCloseTo(4, 1);
    expect(layoutOf({ step: '43', stack: ['R-38', 'S-13'] }).outlines.some(({ of }) => of === 'stud jam')).toBe(false);
  });

  test('a lever longer than the drawing is broken off, and one of unknown length too', () => {
    expect(layoutOf({ step: '31', stack: ['B-1', 'X-400', 'X-250', 'S-41'] }).toolBroken).toBe(true);
    expect(layoutOf({ step: '41', stack: ['T-12', 'A-12', 'U-38', 'K-6'] }).toolBroken).toBe(true);
  });

  test('the swing is drawn at the angle the plan gives, and a step beyond it is filled', () => {
    const { swing } = shapeOf({ step: '13', stack: ['R-38', 'X-06', 'S-18D'] });
    if (swing === null) throw new Error('The step limits the swing.');
    const outlines = swingLayout(swing).outlines;
    expect(outlines.find(({ of }) => of === 'next grip')?.fill).toBe('jam');
    expect(outlines.some(({ of }) => of === 'beyond the room')).toBe(true);
    const [, startX = 0, startY = 0] = [
      0,
      ...pathNumbers(outlines.find(({ of }) => of === 'free swing')?.d ?? '').slice(2, 4),
    ];
    const fromUpDeg = (Math.atan2(98 - startX, 98 - startY) * 180) / Math.PI;
    expect(fromUpDeg).toBeCloseTo(4, 1);
  });
});

const sideView = (within: HTMLElement): SVGSVGElement | undefined =>
  [...within.querySelectorAll<SVGSVGElement>('svg[role="img"]')].find((svg) => svg.querySelector('desc') !== null);

describe('the drawing on screen', () => {
  const sizes = [
    { widthPx: 420, units: 'both' },
    { widthPx: 660, units: 'both' },
    { widthPx: 1000, units: 'both' },
    { widthPx: 800, units: 'as-written' },
    { widthPx: 800, units: 'si' },
    { widthPx: 800, units: 'inch-pound' },
  ] as const;

  test.each(drawnCases)('$name: no text lies on another, none is cut off', async (drawn) => {
    for (const { widthPx, units } of sizes) {
      const screen = await shown(
        <StackDrawing plan={drawingPlan} step={stepOf(drawn.step)} stack={drawn.stack} units={units} />,
        { widthPx },
      );
      // The first layout knows no width and takes 760 px, which no frame here has.
      await expect.poll(() => sideView(screen.container)?.getAttribute('width') ?? '760').not.toBe('760');
      const svg = sideView(screen.container);
      if (svg === undefined) throw new Error('There is no drawing.');
      const boxes = textBoxes(svg);
      expect(boxes.length).toBeGreaterThan(4);
      expect(overlaps(boxes), `${widthPx} px, ${units}`).toEqual([]);
      const { width, height } = svg.viewBox.baseVal;
      const cut = boxes.filter((box) => box.left < 0 || box.right > width || box.top < 0 || box.bottom > height);
      expect(cut, `${widthPx} px, ${units}`).toEqual([]);
      await screen.unmount();
    }
  });

  test.each(drawnCases)(
    '$name: on paper, across or in a part of it, no text lies on another, none is cut off',
    (drawn) => {
      for (const [widthPx, scene] of [
        [800, onPaper],
        [480, onPaper],
        [480, onPartOfPaper],
        [390, onPartOfPaper],
      ] as const) {
        const shape = shapeOf(drawn);
        const texts = stackTexts(drawingPlan, stepOf(drawn.step), drawn.stack, shape, 'both');
        const layout = stackLayout(shape, texts, widthPx, scene);
        // A card takes none that grew wider than asked, or whose parts shrank to make the texts room.
        if (layout.widthPx > widthPx || layout.pxPerMm < stackLayout(shape, texts, 800, onPaper).pxPerMm * 0.3)
          continue;
        const frame = document.createElement('div');
        frame.append(
          document.createRange().createContextualFragment(printedDrawing(layout, 'a stack').text),
          Object.assign(document.createElement('style'), {
            textContent: '.label{font:400 12.5px "Atkinson Hyperlegible Next Variable","Noto Sans Math"}',
          }),
        );
        document.body.append(frame);
        const svg = frame.querySelector('svg');
        if (svg === null) throw new Error('There is no drawing.');
        svg.setAttribute('width', String(layout.widthPx));
        const boxes = textBoxes(svg);
        expect(boxes.length).toBeGreaterThan(4);
        expect(overlaps(boxes), `${widthPx} px`).toEqual([]);
        const cut = boxes.filter(
          ({ left, right, top, bottom }) => left < 0 || right > layout.widthPx || top < 0 || bottom > layout.heightPx,
        );
        expect(cut, `${widthPx} px`).toEqual([]);
        frame.remove();
      }
    },
  );

  test('says in words what it shows, and what is schematic', async () => {
    const screen = await shown(
      <StackDrawing plan={drawingPlan} step={stepOf('12')} stack={['R-38', 'X-06', 'S-18D']} units="both" />,
    );
    await expect
      .element(screen.getByRole('img', { name: /1 Ratchet handle, 2 rigid 6 in, 3 Socket/ }))
      .toBeInTheDocument();
    expect(screen.container.querySelector('desc')?.textContent).toBe(
      'needed 8.85 in (224.79 mm); stack 8.10 in (205.7 mm); short by 0.75 in (19.1 mm); clear ⌀1.00 in (25.40 mm); gap 0.10 in (2.5 mm) all round',
    );
    await expect.element(screen.getByText(/Outlines of tool, head and host are schematic/)).toBeInTheDocument();
  });

  test('the table beside it holds the numbers of the drawing', async () => {
    const screen = await shown(
      <StackDrawing plan={drawingPlan} step={stepOf('11')} stack={['R-38', 'X-06', 'S-18W']} units="both" />,
    );
    await screen.getByText('As table').click();
    const cells = [...screen.container.querySelectorAll('tbody tr')].map((row) => row.textContent ?? '');
    expect(cells).toContain('Depth to the head6.44 in (163.58 mm)needed');
    expect(
      cells.some((text) => text.includes('⌀1.06 in (26.92 mm)') && text.includes('0.060 in (1.5 mm) too wide')),
    ).toBe(true);
    expect(cells.some((text) => text.startsWith('Swing60° free, needs 12°'))).toBe(true);
  });

  test('a step without a stack says so in place of a drawing', async () => {
    const screen = await shown(<StackDrawing plan={drawingPlan} step={stepOf('50')} stack={[]} units="both" />);
    await expect.element(screen.getByText(/by hand or with gear/)).toBeInTheDocument();
    expect(screen.container.querySelector('svg')).toBeNull();
  });

  test('every colour is a token, so that dark and forced colours reach it', async () => {
    const screen = await shown(
      <StackDrawing plan={drawingPlan} step={stepOf('11')} stack={['R-38', 'X-06', 'S-18D']} units="both" />,
    );
    const light = [...screen.container.querySelectorAll('svg [class]')].map(
      (e) => getComputedStyle(e).stroke + getComputedStyle(e).fill,
    );
    await screen.unmount();
    const dark = await shown(
      <StackDrawing plan={drawingPlan} step={stepOf('11')} stack={['R-38', 'X-06', 'S-18D']} units="both" />,
      { scheme: 'dark' },
    );
    const after = [...dark.container.querySelectorAll('svg [class]')].map(
      (e) => getComputedStyle(e).stroke + getComputedStyle(e).fill,
    );
    expect(after).toHaveLength(light.length);
    const painted = light
      .map((value, index) => [value, after[index]] as const)
      .filter(([value]) => !/^nonenone$/.test(value));
    expect(painted.filter(([before, then]) => before === then)).toEqual([]);
  });
});
