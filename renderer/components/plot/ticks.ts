import { roundNominal } from '../../engine/units/index.ts';

export interface AxisTick {
  value: number;
  text: string;
}

/** Round values, steps of 1, 2 or 5, at most so many of them, none beyond the ends. */
export function roundTicks(from: number, to: number, most = 6): AxisTick[] {
  const rough = (to - from) / Math.max(1, most - 1);
  if (!(rough > 0) || !Number.isFinite(rough)) return [];
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((one) => one * power >= rough * (1 - 1e-9)) ?? 10) * power;
  const digits = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => {
    const value = Number(((first + index) * step).toPrecision(12));
    return { value, text: roundNominal(value, digits) };
  });
}

/** Where labels stand that shall not touch: each as near to its own place as the others let it, in their order. */
export function spreadApart(wanted: readonly number[], gap: number, ends: { from: number; to: number }): number[] {
  const order = wanted.map((at, index) => ({ at, index })).toSorted((a, b) => a.at - b.at);
  const placed: { at: number; index: number }[] = [];
  for (const { at, index } of order) {
    const before = placed.at(-1);
    placed.push({ at: Math.max(at, ends.from, before === undefined ? ends.from : before.at + gap), index });
  }
  let limit = ends.to;
  for (const one of placed.toReversed()) {
    one.at = Math.min(one.at, limit);
    limit = one.at - gap;
  }
  return wanted.map((_, index) => placed.find((one) => one.index === index)?.at ?? 0);
}
