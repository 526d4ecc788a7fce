import { convertValue } from '../../engine/units/index.ts';

export interface ScaleBar {
  x: number;
  y: number;
  lengthPx: number;
  /** "50 mm" */
  text: string;
}

const steps = [1, 2, 5];

/** The longest round length, 1-2-5, that stays under so many px. */
export function scaleBar(input: {
  pxPerMm: number;
  unit: 'mm' | 'in';
  x: number;
  y: number;
  mostPx?: number;
}): ScaleBar {
  const { mostPx = 120 } = input;
  const pxPerUnit = input.pxPerMm * convertValue(1, input.unit, 'mm');
  let best = 0.01;
  for (let power = -2; power <= 4; power += 1) {
    for (const step of steps) {
      const length = step * 10 ** power;
      if (length * pxPerUnit <= mostPx) best = length;
    }
  }
  const written = best >= 1 ? String(Math.round(best)) : String(Math.round(best * 100) / 100);
  return { x: input.x, y: input.y, lengthPx: best * pxPerUnit, text: `${written} ${input.unit}` };
}
