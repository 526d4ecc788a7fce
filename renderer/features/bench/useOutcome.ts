import { useEffect, useMemo, useState } from 'react';
import type { UnitsShown } from '../../engine/units/index.ts';
import { findLikeliest } from '../../workers/likeliest.ts';
import type { LikeliestAsked, LikeliestFound } from '../../workers/likeliest.ts';
import { missingFields, type BenchSheet, type Typed } from './benchSheet.ts';
import { outcomeOf, refusedOutcome, type Outcome } from './outcome.ts';

type Worked = { asked: LikeliestAsked } & ({ found: LikeliestFound } | { error: unknown });

/** What the entries come to; what is drawn for is drawn in a worker, which ends as soon as the entries are others. */
export function useOutcome(sheet: BenchSheet, typed: Typed, units: UnitsShown): Outcome | { is: 'working' } {
  const asked = useMemo(() => askedOf(sheet, typed), [sheet, typed]);
  const [worked, setWorked] = useState<Worked | null>(null);
  useEffect(() => {
    if (asked === null) return undefined;
    let wanted = true;
    const { found, cancel } = findLikeliest(asked);
    found.then(
      (answer) => (wanted ? setWorked({ asked, found: answer }) : undefined),
      (error: unknown) => (wanted ? setWorked({ asked, error }) : undefined),
    );
    return () => {
      wanted = false;
      cancel();
    };
  }, [asked]);
  return useMemo(() => {
    if (asked === null) return outcomeOf(sheet, typed, units);
    if (worked?.asked !== asked) return { is: 'working' };
    return 'found' in worked
      ? outcomeOf(sheet, typed, units, worked.found)
      : refusedOutcome(sheet, typed, worked.error);
  }, [sheet, typed, units, asked, worked]);
}

/** Null where nothing is drawn for, and where the entries are refused before: the outcome says then what of them. */
function askedOf(sheet: BenchSheet, typed: Typed): LikeliestAsked | null {
  if (sheet.draws === undefined || missingFields(sheet, typed).length > 0) return null;
  try {
    return sheet.draws(typed);
  } catch {
    return null;
  }
}
