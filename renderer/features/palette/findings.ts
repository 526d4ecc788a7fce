import type { BagResult } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { Place } from '../../store/place.ts';
import { lineId } from '../bag/BagTable.tsx';
import type { Judgements } from '../steps/judging.ts';
import type { Command } from './command.ts';
import { keysText } from './command.ts';

export interface Finding {
  id: string;
  kind: 'Go' | 'Do' | 'Step' | 'Item' | 'Table';
  title: string;
  /** An id, or why it cannot be taken now. */
  note: string;
  keys: string | null;
  hindered: boolean;
  run: () => void;
}

export function commandFindings(commands: readonly Command[]): Finding[] {
  return commands.map(({ id, kind, title, keys, hindered, run }) => ({
    id,
    kind,
    title,
    note: hindered ?? '',
    keys: keys === null ? null : keysText(keys),
    hindered: hindered !== null,
    run,
  }));
}

const stateWords = { reached: 'Reached', 'not-reached': 'Not reached', 'by-hand': 'By hand' } as const;

/** Steps and items of the plan at hand, each with where it leads. */
export function planFindings(
  plan: ResolvedPlan,
  around: { judgements: Judgements; result: BagResult | null; go: (place: Place) => void },
): Finding[] {
  const { judgements, result, go } = around;
  const steps = plan.steps.map((step, index): Finding => {
    const judged = judgements.get(step.id);
    return {
      id: `step ${step.id}`,
      kind: 'Step',
      title: `${index + 1} · ${step.name}`,
      note: judged === undefined ? step.id : stateWords[judged.state],
      keys: null,
      hindered: false,
      run: () => go({ at: 'steps', step: step.id }),
    };
  });
  const lines = new Map<string, Place>();
  for (const outing of result?.outings ?? [])
    for (const item of outing.items)
      if (!lines.has(item.id)) lines.set(item.id, { at: 'bag', outing: outing.id, line: lineId(item.bag, item.id) });
  const users = new Map<string, string>();
  for (const step of plan.steps) {
    const judged = judgements.get(step.id);
    const stacks = [judged?.best, judged?.hold, ...(judged?.others ?? [])].flatMap((one) => one?.stack ?? []);
    for (const id of [...step.gear.map((gear) => gear.id), ...step.moves.map((move) => move.id), ...stacks])
      if (!users.has(id)) users.set(id, step.id);
  }
  const items = [...plan.carried.values()].map(({ id, name }): Finding => {
    const line = lines.get(id);
    const user = users.get(id);
    const place = line ?? (user === undefined ? undefined : ({ at: 'steps', step: user } as const));
    const inBag = result === null ? '' : ', not in the bag';
    return {
      id: `item ${id}`,
      kind: 'Item',
      title: name === id ? id : `${id} ${name}`,
      note:
        line !== undefined
          ? 'in the bag'
          : user === undefined
            ? `no step leads to it${inBag}`
            : `serves a step${inBag}`,
      keys: null,
      hindered: place === undefined,
      run: () => {
        if (place !== undefined) go(place);
      },
    };
  });
  return [...steps, ...items];
}

const fold = (text: string): string => text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();

/** What holds every word of the query; what begins with it first, the given order else. Empty: the commands alone. */
export function find(query: string, commands: Finding[], rest: Finding[]): Finding[] {
  const words = fold(query)
    .split(/\s+/)
    .filter((word) => word !== '');
  if (words.length === 0) return commands;
  const whole = fold(query.trim());
  const rank = ({ title, note }: Finding): number => {
    const text = fold(`${title} ${note}`);
    if (!words.every((word) => text.includes(word))) return 0;
    return text.startsWith(whole)
      ? 3
      : new RegExp(`(^|[\\s·])${whole.replaceAll(/[^\p{L}\p{N} ]/gu, '.')}`, 'u').test(text)
        ? 2
        : 1;
  };
  return [...commands, ...rest]
    .map((finding) => ({ finding, rank: rank(finding) }))
    .filter((one) => one.rank > 0)
    .toSorted((a, b) => b.rank - a.rank)
    .map((one) => one.finding);
}
