import { useMemo, useState } from 'react';
import { NativeSelect } from '@mantine/core';
import { preferencesKey } from '../../../shared-types/records/window.ts';
import { compareKits, compareSteps } from '../../engine/kits/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { Place } from '../../store/place.ts';
import { countOf } from '../catalog/words.ts';
import { goTo } from '../session/usePlace.ts';
import { useTable } from '../session/useStore.ts';
import { Unread } from '../task/SheetState.tsx';
import { Differing, OnlyIn } from './ItemDifferences.tsx';
import { firstSides, itemsOfSide, sidesOf } from './sides.ts';
import type { Side } from './sides.ts';
import { StackTable } from './StackTable.tsx';
import { StepDifferences } from './StepDifferences.tsx';
import { useStackChanges } from './useStackChanges.ts';
import '../task/task.css';
import './kits.css';

export interface KitsPlaceProps {
  place: Extract<Place, { at: 'kits' }>;
  units: UnitsShown;
}

const nothing = { items: [], gone: [] };

/** In a sentence: what is written from right to left in a name turns nothing around it. */
const isolated = (name: string): string => `\u2068${name}\u2069`;

function grouped(sides: readonly Side[]) {
  const groups = new Map<string, { value: string; label: string }[]>();
  for (const { key, label, group } of sides) groups.set(group, [...(groups.get(group) ?? []), { value: key, label }]);
  return [...groups].map(([group, items]) => ({ group, items }));
}

/** Two kits held against each other: what is missing, what differs, and whether it matters for the stacks of a task. */
export function KitsPlace({ place, units }: KitsPlaceProps) {
  const shelves = useTable('shelves');
  const items = useTable('items');
  const tasks = useTable('tasks');
  const results = useTable('results');
  const outings = useTable('outings');
  const steps = useTable('steps');
  const interfaces = useTable('interfaces');
  const sites = useTable('sites');
  const atHand = useTable('preferences').rows.get(preferencesKey)?.task ?? null;
  const [asked, setAsked] = useState<string | null>(null);
  const [all, setAll] = useState(false);
  const known = useMemo(
    () => ({ shelves: shelves.rows, items: items.rows, tasks: tasks.rows, results: results.rows }),
    [shelves.rows, items.rows, tasks.rows, results.rows],
  );
  const sides = useMemo(() => sidesOf(known), [known]);
  const [first, second] = useMemo(() => firstSides(sides, items.rows), [sides, items.rows]);
  const mine = sides.find(({ key }) => key === place.mine) ?? first;
  const theirs = sides.find(({ key }) => key === place.theirs) ?? second;
  const here = useMemo(() => (mine === null ? nothing : itemsOfSide(mine, known)), [mine, known]);
  const there = useMemo(() => (theirs === null ? nothing : itemsOfSide(theirs, known)), [theirs, known]);
  const compared = useMemo(() => compareKits(here.items, there.items), [here, there]);
  const task =
    tasks.rows.get(asked ?? mine?.task ?? theirs?.task ?? atHand ?? '') ?? [...tasks.rows.values()][0] ?? null;
  const records = useMemo(
    () =>
      task === null
        ? null
        : {
            task,
            outings: [...outings.rows.values()].filter((one) => one.task === task.id),
            steps: [...steps.rows.values()].filter((one) => one.task === task.id),
            interfaces: [...interfaces.rows.values()],
            sites: [...sites.rows.values()],
            shelves: [...shelves.rows.values()],
            items: [...items.rows.values()].filter(({ shelf }) => task.shelves.includes(shelf)),
          },
    [task, outings.rows, steps.rows, interfaces.rows, sites.rows, shelves.rows, items.rows],
  );
  const stacks = useStackChanges(records, here.items, there.items);
  const twoTasks = useMemo(() => {
    if (mine?.task == null || theirs?.task == null || mine.task === theirs.task) return null;
    const of = (id: string) => [...steps.rows.values()].filter((step) => step.task === id);
    return compareSteps(of(mine.task), of(theirs.task), interfaces.rows);
  }, [mine, theirs, steps.rows, interfaces.rows]);

  const tables = [shelves, items, tasks, results, outings, steps, interfaces, sites];
  const fault = tables.find((table) => table.fault !== null)?.fault;
  if (fault !== undefined && fault !== null) return <Unread what="kits" reason={fault} />;
  if (!tables.every(({ ready }) => ready))
    return (
      <p className="bw-task-open" role="status">
        Reading the kits…
      </p>
    );
  if (mine === null || theirs === null)
    return (
      <div className="bw-kits">
        <h1>Kits compared</h1>
        <p>
          There is no kit yet: a shelf with items is one, and so is the stock or the planned bag of a task. Begin with
          the <a href="#/catalog">catalog</a>.
        </p>
      </div>
    );
  const choose = (change: { mine?: string; theirs?: string }): void =>
    goTo({ at: 'kits', mine: mine.key, theirs: theirs.key, ...change }, 'replace');
  const heads = [mine.label, theirs.label] as const;
  const options = grouped(sides);
  const changed = stacks.changes.filter(({ effect }) => effect !== 'same');
  const count = (effects: readonly string[]): number => changed.filter(({ effect }) => effects.includes(effect)).length;
  const needed = new Set(
    stacks.changes.flatMap(({ mine: a, theirs: b }) => [...a.stack, ...(a.hold ?? []), ...b.stack, ...(b.hold ?? [])]),
  );
  for (const { gear = [] } of records?.steps ?? []) for (const { id } of gear) needed.add(id);
  const ofTask = new Map((records?.steps ?? []).map((step) => [step.code, step]));
  return (
    <article className="bw-kits" aria-labelledby="kits-heading">
      <h1 id="kits-heading">Kits compared</h1>
      <div className="bw-kits-choice">
        <NativeSelect
          label="One kit"
          data={options}
          value={mine.key}
          onChange={({ currentTarget: { value } }) => choose({ mine: value })}
        />
        <NativeSelect
          label="The other kit"
          data={options}
          value={theirs.key}
          onChange={({ currentTarget: { value } }) => choose({ theirs: value })}
        />
        {tasks.rows.size === 0 ? null : (
          <NativeSelect
            label="Stacks of task"
            data={[...tasks.rows.values()].map(({ id, code, name }) => ({ value: id, label: `${code}, ${name}` }))}
            value={task?.id ?? ''}
            onChange={({ currentTarget: { value } }) => setAsked(value)}
          />
        )}
      </div>
      {mine.key === theirs.key ? (
        <p className="bw-second">That is the same kit twice: choose another beside it.</p>
      ) : null}
      {[...here.gone, ...there.gone].length === 0 ? null : (
        <p>
          <b>No shelf of its task has any more:</b> {[...new Set([...here.gone, ...there.gone])].join(', ')}. What was
          packed of them is not compared.
        </p>
      )}

      <section aria-labelledby="kits-matter">
        <h2 id="kits-matter">Whether it matters for the stacks</h2>
        {task === null ? (
          <p className="bw-second">No task is kept: there are no steps that could lose a stack.</p>
        ) : (
          <>
            <p role="status">
              {stacks.fault !== null
                ? `The steps cannot be judged: ${stacks.fault}`
                : stacks.changes.length < stacks.of
                  ? `Judging: ${stacks.changes.length} of ${countOf(stacks.of, 'step')}`
                  : stacks.of === 0
                    ? `${task.code} has no steps yet.`
                    : changed.length === 0
                      ? `No. All ${countOf(stacks.of, 'step')} of ${task.code} have the same lightest stack, setting and spare reach with both.`
                      : `Of ${countOf(stacks.of, 'step')} of ${task.code}, from “${isolated(mine.label)}” to “${isolated(theirs.label)}”: ${count(['loses'])} lose their stack or what they name, ${count(['gains'])} gain it, ${count(['other-stack'])} get another stack, ${count(['other-setting'])} another setting, ${count(['other-reach'])} another spare reach.`}
            </p>
            {stacks.changes.length === 0 ? null : (
              <>
                <label className="bw-check-line">
                  <input
                    type="checkbox"
                    checked={all}
                    onChange={({ currentTarget }) => setAll(currentTarget.checked)}
                  />
                  Show the steps that stay the same too
                </label>
                {(all ? stacks.changes : changed).length === 0 ? null : (
                  <StackTable changes={all ? stacks.changes : changed} steps={ofTask} heads={heads} units={units} />
                )}
              </>
            )}
            <p className="bw-source">
              Each step with the lightest stack that the kit alone has, and what it needs by the rules of the planner.
              Fasteners and bags are the task’s own where the kit has none. The values support a qualified person’s
              decision and do not replace the approved procedure: verify before use.
            </p>
          </>
        )}
      </section>

      <section aria-labelledby="kits-items">
        <h2 id="kits-items">Items</h2>
        <div className="bw-kits-only">
          <OnlyIn title={`Only in ${mine.label}`} items={compared.onlyMine} needed={needed} />
          <OnlyIn title={`Only in ${theirs.label}`} items={compared.onlyTheirs} needed={needed} />
        </div>
        <Differing compared={compared} heads={heads} />
      </section>
      {twoTasks === null ? null : <StepDifferences compared={twoTasks} heads={heads} />}
    </article>
  );
}
