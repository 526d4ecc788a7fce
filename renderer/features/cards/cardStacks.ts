import type { BagResult } from '../../../shared-types/bag.ts';
import type { CardPart } from '../../engine/cards/index.ts';
import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { onPaper, onPartOfPaper, stackLayout } from '../../components/StackDrawing/stackLayout.ts';
import type { SceneSizes, StackLayout } from '../../components/StackDrawing/stackLayout.ts';
import { stackShape } from '../../components/StackDrawing/stackShape.ts';
import { stackTexts } from '../../components/StackDrawing/stackTexts.ts';

interface StackSource {
  plan: ResolvedPlan;
  result: BagResult;
  units: UnitsShown;
}

export interface DrawnStack {
  layout: StackLayout;
  spoken: string;
  /** "1 TT-2, 2 X-06 …" */
  parts: string;
}

/**
 * How a step's stacks stand on its card: across the page with their words beneath, at the side of their words, or what holds against turning
 * beside what turns, with the words beneath.
 */
type Arrangement = 'across' | 'side' | 'beside';

export interface DrawnScene {
  arrangement: Arrangement;
  turning: DrawnStack;
  /** What holds against it, drawn the same way. */
  hold: DrawnStack | null;
  /** Of the drawings, without their words. */
  heightMm: number;
}

/** How wide a drawing is laid out, in px of the window, and drawn, in mm: texts of 12.5 px stand at 8 pt. */
const widths: Record<Arrangement, { px: number; mm: number }> = {
  across: { px: 800, mm: 184 },
  side: { px: 480, mm: 110.4 },
  beside: { px: 390, mm: 89.7 },
};

/** Between one drawing and the one under it, or about a pair. */
const betweenMm = 2;

interface Way {
  arrangement: Arrangement;
  sizes: SceneSizes;
  /** The least share of the scale that the whole width gives. */
  leastShare: number;
}

const across: Way = { arrangement: 'across', sizes: onPaper, leastShare: 0 };
const alone: readonly Way[] = [
  { arrangement: 'side', sizes: onPaper, leastShare: 0.4 },
  { arrangement: 'side', sizes: onPartOfPaper, leastShare: 0.4 },
];
const inPairs: readonly Way[] = [
  { arrangement: 'beside', sizes: onPartOfPaper, leastShare: 1 / 3 },
  { arrangement: 'side', sizes: onPaper, leastShare: 0.3 },
  { arrangement: 'side', sizes: onPartOfPaper, leastShare: 0.3 },
];

/** The stacks of a part, arranged so that they leave the lines the most room; null where it has none, or none that can be drawn. */
export function sceneOf(source: StackSource, { step }: CardPart): DrawnScene | null {
  const resolved = source.plan.steps.find(({ id }) => id === step.id);
  if (resolved === undefined || step.stack.length === 0) return null;
  const holding = resolved.hold === null || step.hold === null ? null : { ...resolved, ...resolved.hold };
  const drawn = (way: Way) => ({
    turning: stackDrawn(source, resolved, step.stack, way),
    hold: holding === null ? null : stackDrawn(source, holding, step.hold ?? [], way),
  });
  const whole = drawn(across);
  if (whole.turning === null) return null;
  const { turning, hold } = whole;
  let best: DrawnScene = sceneIn(across, { turning, hold });
  for (const way of hold === null ? alone : inPairs) {
    const part = drawn(way);
    if (part.turning === null || !fits(part.turning, turning, way)) continue;
    if (hold !== null && (part.hold === null || !fits(part.hold, hold, way))) continue;
    const scene = sceneIn(way, { turning: part.turning, hold: part.hold });
    if (scene.heightMm < best.heightMm + spareMm(scene) - spareMm(best)) best = scene;
  }
  return best;
}

/** Words at the side of a drawing take up none of the page's height. */
const spareMm = ({ arrangement }: DrawnScene): number => (arrangement === 'side' ? 14 : 0);

function sceneIn({ arrangement }: Way, both: { turning: DrawnStack; hold: DrawnStack | null }): DrawnScene {
  const { turning, hold } = both;
  const of = ({ layout }: DrawnStack): number =>
    (layout.heightPx / widths[arrangement].px) * widths[arrangement].mm + betweenMm;
  const [one, other] = [of(turning), hold === null ? 0 : of(hold)];
  return { arrangement, turning, hold, heightMm: arrangement === 'beside' ? Math.max(one, other) : one + other };
}

/** A layout grows wider than asked where its texts do not fit, or its parts shrink to make them room. */
function fits({ layout }: DrawnStack, whole: DrawnStack, { arrangement, leastShare }: Way): boolean {
  return layout.widthPx <= widths[arrangement].px && layout.pxPerMm >= whole.layout.pxPerMm * leastShare;
}

function stackDrawn(
  { plan, units }: StackSource,
  step: ResolvedStep,
  stack: readonly string[],
  { arrangement, sizes }: Way,
): DrawnStack | null {
  const shaped = stackShape(plan, step, stack);
  if ('reason' in shaped) return null;
  const texts = stackTexts(plan, step, stack, shaped.shape, units);
  return {
    layout: stackLayout(shaped.shape, texts, widths[arrangement].px, sizes),
    spoken: [texts.needed, texts.stack, texts.spare, ...texts.hole].join('; '),
    parts: texts.parts.map(({ number, id, name }) => `${number} ${id}${name === id ? '' : ` ${name}`}`).join(', '),
  };
}
