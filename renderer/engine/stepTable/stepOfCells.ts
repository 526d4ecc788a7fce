import type { TaskStep } from '../../../shared-types/records/task.ts';
import { atPath, valueText } from '../catalog/cellText.ts';
import { valueOfText } from '../catalog/itemOfCells.ts';
import { faultsOf } from '../records/faultsOf.ts';
import { stepColumns, type StepColumn } from './stepColumns.ts';

/** What a table of steps may name. */
export interface StepNames {
  outings: readonly { code: string; roles: readonly string[] }[];
  /** As a cell names them: by their code, or with the code of their site. */
  interfaces: readonly { id: string; named: string }[];
}

/** What is wrong with a cell. */
export interface StepCellFault {
  column: string;
  message: string;
}

/** The step that a row makes, or everything that keeps it from being one. */
export type StepOfCells = { step: TaskStep; faults: readonly [] } | { step: null; faults: readonly StepCellFault[] };

/** Key, revision, task and place of the step, and what of a kept one stands in no cell. */
export type StepHead = Pick<TaskStep, 'id' | 'rev' | 'task' | 'position'> & Pick<Partial<TaskStep>, 'calloutFrom'>;

type Draft = Record<string, unknown>;

/**
 * A step as a row of the table.
 *
 * @returns its filled cells by the names of their columns, as typed, so that they make the same step again
 */
export function cellsOfStep(step: TaskStep, { interfaces }: StepNames): Record<string, string> {
  const cells: Record<string, string> = {};
  for (const { name, path, type } of stepColumns) {
    const value = atPath(step, path);
    if (value === undefined) continue;
    const text =
      name === 'interface'
        ? (interfaces.find(({ id }) => id === value)?.named ?? '')
        : 'write' in type
          ? type.write(value)
          : valueText(type, value);
    if (text !== '') cells[name] = text;
  }
  return cells;
}

/**
 * A step out of a row's texts, checked as its form checks it; what the planner still needs is no fault.
 *
 * @param cells - by the names of `stepColumns`; empty ones are not there
 */
export function stepOfCells(cells: Readonly<Record<string, string>>, head: StepHead, names: StepNames): StepOfCells {
  const draft: Draft = { ...head };
  if (head.calloutFrom === undefined) delete draft['calloutFrom'];
  const faults: StepCellFault[] = [];
  const refuse = (column: string, message: string): void => {
    if (!faults.some((fault) => fault.column === column)) faults.push({ column, message });
  };
  for (const column of stepColumns) {
    const text = cells[column.name]?.trim() ?? '';
    if (text === '') continue;
    const read = valueOf(column, text, names);
    if ('why' in read) refuse(column.name, read.why);
    else setAt(draft, column.path, read.value);
  }
  if (draft['contingency'] === false) delete draft['contingency'];
  agree(draft, names, refuse);
  for (const { path, message } of faultsOf('steps', draft)) refuse(columnAt(path), message);
  // What `faultsOf` has nothing against is of the schema's shape.
  return faults.length > 0 ? { step: null, faults } : { step: draft as unknown as TaskStep, faults: [] };
}

function valueOf({ name, type }: StepColumn, text: string, { interfaces }: StepNames) {
  if (name === 'interface') {
    const found = interfaces.find(({ named }) => named === text);
    if (found !== undefined) return { value: found.id };
    const known = interfaces.slice(0, 12).map(({ named }) => named);
    return { why: `"${text}" is no interface here${known.length === 0 ? '' : `: there are ${known.join(', ')}`}` };
  }
  return 'write' in type ? type.read(text) : valueOfText(type, text);
}

/** What a step says must go with its task, and with itself. */
function agree(draft: Draft, { outings }: StepNames, refuse: (column: string, message: string) => void): void {
  const outing = outings.find(({ code }) => code === draft['outing']);
  const { role } = draft;
  if (typeof draft['outing'] === 'string' && outing === undefined) {
    const known = outings.map(({ code }) => code).join(', ');
    refuse('outing', `"${draft['outing']}" is no outing of this task${known === '' ? '' : `: there are ${known}`}`);
  }
  if (outing !== undefined && typeof role === 'string' && !outing.roles.includes(role))
    refuse('role', `"${role}" is no role of outing ${outing.code}: there are ${outing.roles.join(', ')}`);
  const { ifFails } = draft as Partial<TaskStep>;
  if (ifFails === undefined) return;
  if (draft['contingency'] !== true) refuse('contingency', 'must be yes where the step is for one that fails');
  if (ifFails.step === undefined) refuse('ifFails', 'is empty: name the step by its code');
  if (ifFails.how === undefined) refuse('failure', 'is empty: say what went wrong there');
}

/** The column in which a fault is mended: its own, or the first of the group that lacks something. */
function columnAt(path: string): string {
  const plain = path.replace(/\[.*$/, '');
  const own = stepColumns.find((column) => column.path === plain);
  const within = stepColumns.find((column) => column.path.startsWith(`${plain}.`));
  return (own ?? within ?? stepColumns.find((column) => plain.startsWith(`${column.path}.`)))?.name ?? 'code';
}

function setAt(draft: Draft, path: string, value: unknown): void {
  const [name = '', ...rest] = path.split('.');
  if (rest.length === 0) draft[name] = value;
  else setAt((draft[name] ??= {}) as Draft, rest.join('.'), value);
}
