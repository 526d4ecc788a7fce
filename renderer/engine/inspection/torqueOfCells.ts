import { readCallouts, type Callout } from '../callout/index.ts';
import { isEmpty } from '../callout/torqueOfCallout.ts';
import { inUnit } from '../callout/words.ts';
import { RefusedError } from '../errors.ts';
import { readQuantity, showNumber, type Unit } from '../units/index.ts';
import { cellNamed, columnNamed } from './cellNamed.ts';
import { keptTable } from './keptTable.ts';

/** What a callout asks for, as texts that a step of a task can have. */
export interface TorqueOfCallout {
  callout: { min: string; max: string };
  /** Absent where the callout does not say both. */
  running?: { min: string; max: string };
  runningIncluded?: boolean;
  /** The callout's column "source"; null where it has none. */
  source: string | null;
  /** What the torque was published or called out for: its lubrication. */
  condition: string | null;
  thread: string;
}

/** Digits enough that what a trip through N·m costs is taken off again. */
const digits = 12;

/**
 * The torque of one callout in its own words: an end that was typed stays as it was typed; those of a middle and a tolerance are worked out
 * in the middle's unit.
 *
 * @param cells - of the callout, as typed
 * @throws RefusedError as readCallouts does; the first thing of the row that cannot be read; contradiction where the band is empty
 */
export function torqueOfCells(cells: Readonly<Record<string, string>>): TorqueOfCallout {
  const columns = [...Object.keys(cells)];
  // A table without a column for a band refuses itself as a whole, and would not say what of the row is missing.
  for (const name of ['id', 'thread', 'torqueMin', 'torqueMax'])
    if (columnNamed(columns, name) === undefined) columns.push(name);
  const { callouts, refusals } = readCallouts({ content: keptTable(columns, [{ cells }]).text });
  const [callout] = callouts;
  const [refusal] = refusals;
  if (callout === undefined)
    throw new RefusedError(refusal ?? { code: 'missing-field', message: 'nothing is typed in this row' });
  const { thread, band, runningMinNm, runningMaxNm, runningIncluded } = callout;
  if (isEmpty(band))
    throw new RefusedError({
      code: 'contradiction',
      message: 'the least torque is above the greatest: no step can keep to it',
    });
  const source = cellNamed(cells, 'source');
  const condition = cellNamed(cells, 'lubrication');
  return {
    callout: bandTexts(callout, cells),
    ...(runningMinNm === null || runningMaxNm === null
      ? {}
      : {
          running: {
            min: torqueText(cellNamed(cells, 'runningMin'), runningMinNm, callout.unit),
            max: torqueText(cellNamed(cells, 'runningMax'), runningMaxNm, callout.unit),
          },
        }),
    ...(runningIncluded === null ? {} : { runningIncluded }),
    source: source === '' ? null : source,
    condition: condition === '' ? null : condition,
    thread: thread.thread.designation,
  };
}

function bandTexts({ band, unit }: Callout, cells: Readonly<Record<string, string>>): { min: string; max: string } {
  return {
    min: torqueText(cellNamed(cells, 'torqueMin'), band.minNm, unit),
    max: torqueText(cellNamed(cells, 'torqueMax'), band.maxNm, unit),
  };
}

/** As typed, where a step would read the same in it; a table may write its decimals with a comma, which a step may not. */
function torqueText(typed: string, nm: number, unit: Unit): string {
  return isTorque(typed) ? typed : `${showNumber(inUnit(nm, unit), digits)} ${unit}`;
}

function isTorque(text: string): boolean {
  try {
    readQuantity(text, 'torque');
    return true;
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return false;
  }
}
