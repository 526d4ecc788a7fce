import type { Interface } from '../../../shared-types/records/site.ts';
import type { Task } from '../../../shared-types/records/task.ts';
import type { LearnedIn, WatchOutTie } from '../../../shared-types/records/watchOut.ts';
import { cellNamed } from '../../engine/inspection/index.ts';
import { placeOfCallout, placeOfRecord, stepNamed } from '../judged/interfaceOf.ts';
import type { KnownPlaces } from '../judged/interfaceOf.ts';
import { tieToInterface, tieToItem, tieToStep } from './ties.ts';
import type { Touchable } from './ties.ts';
import type { WatchOutBegun } from './watchOutAsking.ts';

type Cells = Readonly<Record<string, string>>;

export interface LearnedFrom {
  in: Extract<LearnedIn, 'as-run' | 'finding'>;
  task: Task;
  /** The row's cells, and where it is a record those of its callout. */
  cells: Cells;
  callout?: Cells | undefined;
  kind: 'as-run' | 'callouts' | 'steps';
  /** Key of the as-run record. */
  record?: string | undefined;
  /** "b4-coupling, position 1, cycle 6" */
  called: string;
  /** What the rule found. */
  message?: string | undefined;
}

/**
 * What a watch-out begins with that is learned from a record or a finding: tied to the interface that it was made at, else to the step
 * that it names; and where the record names its tool's serial, that tool of the task's shelves is offered with it.
 */
export function begunFrom(from: LearnedFrom, known: Touchable): WatchOutBegun {
  const { task, cells } = from;
  const steps = [...known.steps.values()].filter((step) => step.task === task.id);
  const places: KnownPlaces = { steps, interfaces: known.interfaces, site: task.site };
  const at = interfaceOf(from, places);
  const step =
    stepNamed(cellNamed(cells, 'step'), places) ??
    (from.kind === 'steps' ? stepNamed(cellNamed(cells, 'id'), places) : undefined) ??
    stepNamed(cellNamed(cells, 'callout'), places);
  const serial = cellNamed(cells, 'serial');
  const tool =
    serial === ''
      ? undefined
      : [...known.items.values()].find(
          (item) => item.kind === 'torque-tool' && item.serial === serial && task.shelves.includes(item.shelf),
        );
  const ties: WatchOutTie[] = [
    ...(at === undefined ? [] : [tieToInterface(at, known.sites)]),
    ...(at !== undefined || step === undefined ? [] : [tieToStep(step, known.tasks)]),
    // Nothing says where it was: the tool is all that is known of it.
    ...(at !== undefined || step !== undefined || tool === undefined ? [] : [tieToItem(tool, known.shelves)]),
  ];
  return {
    ties,
    ...(from.message === undefined ? {} : { text: from.message.slice(0, 2000) }),
    learned: {
      in: from.in,
      task: task.id,
      words: from.called.slice(0, 2000),
      ...(from.record === undefined ? {} : { record: from.record }),
    },
  };
}

function interfaceOf({ kind, cells, callout = {} }: LearnedFrom, places: KnownPlaces): Interface | undefined {
  if (kind === 'as-run') return placeOfRecord(cells, callout, places)?.interface;
  if (kind === 'callouts') return placeOfCallout(cells, places)?.interface;
  return places.interfaces.get(stepNamed(cellNamed(cells, 'id'), places)?.interface ?? '');
}
