import { useMemo, useRef, useState, useSyncExternalStore } from 'react';
import { Button, NativeSelect } from '@mantine/core';
import { useDebouncedValue, useMediaQuery } from '@mantine/hooks';
import type { Host } from '../../../shared-types/host.ts';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import { SearchBox } from '../../components/SearchBox/SearchBox.tsx';
import { placeAddress } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';
import { countOf } from '../catalog/words.ts';
import { useRevisions } from '../revisions/useRevisions.ts';
import { useSession, useSessionState } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { useTable } from '../session/useStore.ts';
import { GiveLabels } from './GiveLabels.tsx';
import { LabelFields } from './LabelFields.tsx';
import { formFault, usualSizes } from './labelForm.ts';
import type { LabelForm } from './labelForm.ts';
import { labelGridColumns, labelGridRows, shownThings } from './labelRows.tsx';
import { labelsAsked } from './labelAsking.ts';
import { labelSources, sourceKey } from './labelSources.ts';
import { labelCount, labelsOf, whyNoLabel } from './labels.ts';
import type { LabelThing } from './labels.ts';
import { LabelsPreview } from './LabelsPreview.tsx';
import '../steps/steps.css';
import '../settings/settings.css';
import './labels.css';

export interface LabelsPlaceProps {
  place: Extract<Place, { at: 'labels' }>;
  host: Host;
  now: () => Date;
}

/** So many labels are laid out in one go. */
const labelsMost = 2000;

const firstForm: LabelForm = { symbols: 'both', dpi: 203, on: 'sheet', ...usualSizes.both };
const none: ReadonlySet<string> = new Set();
const noItems: readonly string[] = [];

const idsOf = (things: readonly LabelThing[]): ReadonlySet<string> => new Set(things.map(({ item }) => item.id));

/** Labels for things and bags: numbered, chosen, looked at, printed. */
export function LabelsPlace({ place, host, now }: LabelsPlaceProps) {
  const session = useSession();
  const { preferences, atHand, result } = useSessionState();
  const shelves = useTable('shelves');
  const items = useTable('items');
  const { rows: revisions } = useRevisions(atHand?.id ?? '');
  const chosenItems = useSyncExternalStore(labelsAsked.subscribe, labelsAsked.wish) ?? noItems;
  const stacked = useMediaQuery('(max-width: 1100px)', false, { getInitialValueInEffect: false });
  const [form, setForm] = useState(firstForm);
  const [search, setSearch] = useState('');
  const [inHand, setInHand] = useState<string | null>(null);
  const [giving, setGiving] = useState(false);
  const searchField = useRef<HTMLInputElement>(null);
  const table = useRef<HTMLElement>(null);
  const sources = useMemo(
    () =>
      labelSources({
        ...{ shelves: shelves.rows, items: items.rows, chosen: chosenItems, atHand, revisions },
        result: result?.result ?? null,
      }),
    [shelves.rows, items.rows, chosenItems, atHand, result, revisions],
  );
  const source = sources.find((one) => sourceKey(one) === sourceKey(place)) ?? sources[0];
  const key = source === undefined ? '' : sourceKey(source);
  const { things, gone } = useMemo(() => source?.things() ?? { things: [], gone: [] }, [source]);
  // Of what was chosen elsewhere all is meant; of a shelf nothing until it is chosen here.
  const [choice, setChoice] = useState<{ of: string; ids: ReadonlySet<string> }>({ of: '', ids: none });
  const isPicked = source?.from === 'shelf' || source?.from === 'shelves';
  const all = useMemo(() => (isPicked ? none : idsOf(things)), [isPicked, things]);
  const choiceKey = source?.from === 'chosen' ? `${key} ${chosenItems.join(' ')}` : key;
  const chosen = choice.of === choiceKey ? choice.ids : all;
  const choose = (ids: ReadonlySet<string>): void => setChoice({ of: choiceKey, ids });
  const shown = useMemo(() => shownThings(things, search), [things, search]);
  const rows = useMemo(() => labelGridRows(shown), [shown]);
  const hand = useMemo(
    () => (shown.some(({ item }) => item.id === inHand) ? inHand : (shown[0]?.item.id ?? null)),
    [shown, inHand],
  );
  const wanted = useMemo(
    () => things.filter(({ item }) => (chosen.size === 0 ? item.id === hand : chosen.has(item.id))),
    [things, chosen, hand],
  );
  const asked = useMemo(
    () => wanted.reduce((sum, thing) => sum + (thing.item.tag === undefined ? 0 : labelCount(thing)), 0),
    [wanted],
  );
  const labels = useMemo(() => (asked > labelsMost ? [] : labelsOf(wanted)), [asked, wanted]);
  const [settled] = useDebouncedValue(form, 300);
  const [settledLabels] = useDebouncedValue(labels, 300);

  if (!shelves.ready || !items.ready)
    return (
      <p className="bw-pane-detail" role="status">
        Reading the catalog…
      </p>
    );
  if (source === undefined)
    return (
      <div className="bw-pane-detail">
        <h1>No labels yet</h1>
        <p>
          Labels are for things of the catalog, and there is no shelf yet.{' '}
          <a href={placeAddress({ at: 'catalog' })}>Add one in the catalog</a> first.
        </p>
      </div>
    );
  const without = wanted.filter(({ item }) => item.tag === undefined);
  const unlabelled = wanted.filter((thing) => thing.item.tag !== undefined && whyNoLabel(thing) !== null);
  const list = (
    <section key="list" ref={table} className="bw-pane-list" aria-label="Things to label">
      <div className="bw-label-bar">
        <h1>Labels</h1>
        <NativeSelect
          label="Labels for"
          value={key}
          data={grouped(sources)}
          onChange={({ currentTarget }) => {
            const next = sources.find((one) => sourceKey(one) === currentTarget.value);
            if (next === undefined) return;
            setInHand(null);
            goTo({ at: 'labels', from: next.from, ...(next.of === undefined ? {} : { of: next.of }) }, 'replace');
          }}
        />
        <SearchBox
          inputRef={searchField}
          label="Find a thing: code or name"
          hint="Code or name"
          value={search}
          onValue={setSearch}
          count={`${shown.length} of ${things.length}`}
          onDown={() => table.current?.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus()}
        />
        <Button onClick={() => choose(new Set([...chosen, ...idsOf(shown)]))}>Choose all shown</Button>
        <Button disabled={chosen.size === 0} onClick={() => choose(none)}>
          Choose none
        </Button>
      </div>
      <RowGrid
        label="Things to label"
        columns={labelGridColumns}
        rows={rows}
        selected={hand}
        onSelect={setInHand}
        chosen={chosen}
        onChoose={choose}
        empty={things.length === 0 ? 'Nothing here can have a label.' : 'Nothing is called so.'}
      />
      <p className="bw-label-foot bw-second bw-small">
        {chosen.size === 0 ? 'None chosen: the row in hand counts. ' : `${chosen.size} chosen. `}
        Space or Ctrl with a click chooses, Shift a range.
        {gone.length === 0
          ? ''
          : ` Not in the catalog any more: ${gone.slice(0, 8).join(', ')}${gone.length > 8 ? ' and more' : ''}.`}
      </p>
    </section>
  );
  const beside = (
    <div key="detail" className="bw-pane-detail bw-label-pane" role="region" aria-label="Labels" tabIndex={0}>
      <LabelFields form={form} onForm={setForm} />
      {without.length === 0 ? null : (
        <div className="bw-label-give">
          <p>
            {countOf(without.length, 'thing')} of those chosen {without.length === 1 ? 'has' : 'have'} no label number
            yet.
          </p>
          <Button variant={labels.length === 0 ? 'filled' : 'default'} onClick={() => setGiving(true)}>
            Give {countOf(without.length, 'label number')}…
          </Button>
        </div>
      )}
      {unlabelled.length === 0 ? null : (
        <p>
          No label, none on hand:{' '}
          {unlabelled
            .map(({ item }) => item.code)
            .slice(0, 12)
            .join(', ')}
          .
        </p>
      )}
      {asked > labelsMost ? (
        <p role="alert">
          {asked} labels are asked for; at most {labelsMost} are laid out in one go: choose fewer things.
        </p>
      ) : settledLabels.length === 0 ? (
        <p>
          {without.length > 0 ? 'They can be printed as soon as they have numbers.' : 'Choose what labels are for.'}
        </p>
      ) : formFault(settled) !== null ? null : (
        <div className="bw-label-preview">
          <LabelsPreview
            labels={settledLabels}
            form={settled}
            source={source.label}
            revision={source.revision}
            host={host}
            paper={preferences.paper}
            onPaper={(paper) => session.prefer({ paper })}
            now={now}
          />
        </div>
      )}
      {giving ? <GiveLabels wanted={without.map(({ item }) => item)} onDone={() => setGiving(false)} /> : null}
    </div>
  );
  return <div className="bw-split bw-label-split">{stacked ? [beside, list] : [list, beside]}</div>;
}

function grouped(sources: ReturnType<typeof labelSources>) {
  const groups = new Map<string, { value: string; label: string }[]>();
  for (const source of sources)
    groups.set(source.group, [...(groups.get(source.group) ?? []), { value: sourceKey(source), label: source.label }]);
  return [...groups].map(([group, items]) => ({ group, items }));
}
