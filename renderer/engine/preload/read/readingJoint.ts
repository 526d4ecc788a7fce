import { RefusedError } from '../../errors.ts';
import type { Refusals } from '../../json/refusals.ts';
import { limitTolerance } from '../../tolerance.ts';
import { quantityIn, type Kind, type Unit } from '../../units/index.ts';
import type { TorqueBand } from '../formula/index.ts';

interface Asked {
  kind: Kind;
  unit: Unit;
  /** Whether 0 itself is refused. */
  aboveZero: boolean;
}

/** Reads a joint's quantities one field at a time; what cannot be read is gathered and never computed with. */
export class JointReading {
  readonly refusals: Refusals;

  constructor(refusals: Refusals) {
    this.refusals = refusals;
  }

  /** A quantity of at least 0, or above 0. */
  amount(field: string, text: string, asked: Asked): number {
    return this.read(field, text, asked) ?? 1;
  }

  /** A band of torque, min not above max; equal ends in two units may differ by rounding. */
  band(field: string, band: { min: string; max: string }, aboveZero: boolean): TorqueBand {
    const asked = { kind: 'torque', unit: 'N·m', aboveZero } as const;
    const minNm = this.read(`${field}.min`, band.min, asked);
    const maxNm = this.read(`${field}.max`, band.max, asked);
    if (minNm === null || maxNm === null) return { minNm: 1, maxNm: 1 };
    if (minNm > maxNm * (1 + limitTolerance)) {
      this.refuse(`${field}.min`, 'contradiction', `is above the maximum, ${band.max}`, band.min);
    }
    return { minNm: Math.min(minNm, maxNm), maxNm };
  }

  refuse(
    field: string,
    code: 'contradiction' | 'missing-field' | 'out-of-range',
    message: string,
    value?: unknown,
  ): void {
    this.refusals.add(field, { code, message, ...(value === undefined || typeof value === 'object' ? {} : { value }) });
  }

  private read(field: string, text: string, { kind, unit, aboveZero }: Asked): number | null {
    return this.refusals.attempt<number | null>(field, text, null, () => {
      const value = quantityIn(text, kind, unit);
      if (value > 0 || (value === 0 && !aboveZero)) return value;
      throw new RefusedError({ code: 'out-of-range', message: `must be ${aboveZero ? 'more than 0' : '0 or more'}` });
    });
  }
}
