import type { CalloutRow } from '../../../shared-types/callout.ts';
import type { Finding } from '../../../shared-types/judged.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { decisionOf } from '../../engine/callout/index.ts';
import { bandOfCells, cellNamed } from '../../engine/inspection/index.ts';
import { atLeast, atMost } from '../../engine/tolerance.ts';
import { placeOfCallout } from '../judged/interfaceOf.ts';
import type { KnownPlaces } from '../judged/interfaceOf.ts';
import type { FoundList } from './useFound.ts';

type Judged = Extract<FoundList, { kind: 'callouts' }>['rows'][number];
type Cells = Readonly<Record<string, string>>;

/** A callout that a step is for, and by what it is known to be. */
interface Beside {
  row: CalloutRow;
  cells: Cells;
  list: string;
  why: string;
}

const sameTorque =
  'Rule of this program: a step and the callout it is for ask for one torque (common practice, no source).';

/**
 * The judged steps beside the callouts of their task: where a step asks for another torque than every callout it is for, that is a query;
 * and what rules found on such a callout too is told there alone.
 *
 * A step is for the callout it took its torque from or that has its code as id; where there is none, for those of its interface and thread.
 */
export function besideCallouts(lists: readonly FoundList[], known: KnownPlaces): FoundList[] {
  const callouts = lists.filter((list) => list.kind === 'callouts');
  const index = new CalloutIndex(callouts, known);
  const steps = new Map(known.steps.map((step) => [step.id, step]));
  return lists.map((list) => {
    if (list.kind !== 'steps') return list;
    const rows = list.rows.map((judged): Judged => {
      const step = steps.get(judged.key);
      const { row } = judged;
      if (step === undefined || row === null) return judged;
      const beside = index.of(step, row.computed.thread);
      const told = withoutTold(row.findings, beside);
      const other = differs(judged.cells, row, beside);
      const findings = other === null ? told : [...told, other];
      // What is told at the callout decides here all the same.
      const decision = decisionOf(other === null ? row.findings : [...row.findings, other]);
      return { ...judged, row: { ...row, findings, decision } };
    });
    return { ...list, rows };
  });
}

class CalloutIndex {
  private readonly byKey = new Map<string, Beside>();
  private readonly byId = new Map<string, Beside[]>();
  private readonly byPlace = new Map<string, Beside[]>();

  constructor(lists: readonly Extract<FoundList, { kind: 'callouts' }>[], known: KnownPlaces) {
    const sites = new Set(known.steps.flatMap(({ interface: at }) => at ?? []));
    for (const { name: list, rows } of lists) {
      for (const { key, cells, row } of rows) {
        if (row === null) continue;
        const one = { row, cells, list };
        this.byKey.set(key, { ...one, why: 'from which it took its torque' });
        add(this.byId, cellNamed(cells, 'id'), { ...one, why: 'which has its code' });
        if (sites.size === 0) continue;
        const place = placeOfCallout(cells, known)?.interface;
        if (place !== undefined && sites.has(place.id))
          add(this.byPlace, `${place.id} ${row.computed.thread}`, {
            ...one,
            why: `for the same interface ${place.code}`,
          });
      }
    }
  }

  of({ code, calloutFrom, interface: at }: TaskStep, thread: string): Beside[] {
    const from = calloutFrom?.kind === 'callout' ? this.byKey.get(calloutFrom.callout) : undefined;
    if (from !== undefined) return [from];
    const named = this.byId.get(code) ?? [];
    if (named.length > 0) return named;
    return at === undefined ? [] : (this.byPlace.get(`${at} ${thread}`) ?? []);
  }
}

function add(map: Map<string, Beside[]>, key: string, one: Beside): void {
  map.set(key, [...(map.get(key) ?? []), one]);
}

/** What a callout's findings say too stands there; of the step, a note says that it does. */
function withoutTold(findings: readonly Finding[], beside: readonly Beside[]): Finding[] {
  const [first] = beside;
  const told = new Set(beside.flatMap(({ row }) => row.findings.map(({ rule, message }) => `${rule}\n${message}`)));
  const same = findings.filter(({ rule, message, severity }) => severity !== 'note' && told.has(`${rule}\n${message}`));
  if (first === undefined || same.length === 0) return [...findings];
  const rules = [...new Set(same.map(({ rule }) => rule))].join(', ');
  const note: Finding = {
    ...{ rule: 'as-its-callout', severity: 'note', source: sameTorque },
    message: `Rules find of it what they find of ${calledOf(first)}, and it is told there: ${rules}.`,
  };
  return [...findings.filter((one) => !same.includes(one)), note];
}

/** Null where there is nothing to compare with, or one of them says the same. */
function differs(cells: Cells, { computed }: CalloutRow, beside: readonly Beside[]): Finding | null {
  const [first] = beside;
  const own = computed.calloutNm;
  const isSame = ({
    row: {
      computed: { calloutNm },
    },
  }: Beside): boolean => equal(own.min, calloutNm.min) && equal(own.max, calloutNm.max);
  if (first === undefined || beside.some(isSame)) return null;
  const other = first.row.computed.calloutNm;
  const [value, limit] = equal(own.min, other.min) ? [own.max, other.max] : [own.min, other.min];
  const more = beside.length === 1 ? '' : ` None of the ${beside.length} callouts says the same.`;
  return {
    ...{ rule: 'step-differs', severity: 'query', value, limit, unit: 'N·m', source: sameTorque },
    message: `The step asks for ${bandText(cells)}; ${calledOf(first)}, ${first.why}, asks for ${bandText(first.cells)}.${more}`,
  };
}

const equal = (a: number, b: number): boolean => atLeast(a, b) && atMost(a, b);

const calledOf = ({ cells, list }: Beside): string => `callout ${cellNamed(cells, 'id')} of “${list}”`;

function bandText(cells: Cells): string {
  const band = bandOfCells(cells);
  return 'text' in band ? band.text : `${band.min} to ${band.max}`;
}
