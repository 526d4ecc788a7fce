import { useEffect, useMemo, useRef, useState } from 'react';
import type { KeyboardEvent } from 'react';
import { Button, TextInput } from '@mantine/core';
import type { Interface, Site } from '../../../shared-types/records/site.ts';
import { preferencesKey } from '../../../shared-types/records/window.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import { placeAddress } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';
import type { Act } from '../../store/store.ts';
import { goTo } from '../session/usePlace.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { RecordActions } from '../task/RecordActions.tsx';
import { Unread } from '../task/SheetState.tsx';
import { TwoPanes } from '../task/TwoPanes.tsx';
import { useAct } from '../task/useAct.tsx';
import { useAsked } from '../task/useAsked.ts';
import { useOpenForm } from '../task/useOpenForm.ts';
import { InterfaceDetail } from './InterfaceDetail.tsx';
import { InterfaceForm } from './InterfaceForm.tsx';
import { copyInterface, copySite, removeInterface, removeSite } from './siteActs.ts';
import { siteAsking } from './siteCommands.ts';
import { SiteDetail } from './SiteDetail.tsx';
import { RemoveInterface, RemoveSite } from './SiteDialogs.tsx';
import { SiteForm } from './SiteForm.tsx';
import { gridRows, listedSites, rowId, siteColumns } from './siteRows.tsx';
import type { Listed } from './siteRows.tsx';
import { usesOf } from './siteUses.ts';
import { byCode, nameOf } from './siteWords.ts';

export interface SitesHallProps {
  place: Extract<Place, { at: 'sites' }>;
  units: UnitsShown;
}

/** What the form is about. */
type Open =
  | { kind: 'add-site' }
  | { kind: 'edit-site'; site: Site }
  | { kind: 'add-interface'; site: Site }
  | { kind: 'edit-interface'; site: Site; one: Interface };

const formKey = (open: Open): string =>
  open.kind === 'edit-interface' ? open.one.id : open.kind === 'add-site' ? 'site' : `${open.kind} ${open.site.id}`;

/** Work sites, and what a hand or a tool acts on there. */
export function SitesHall({ place, units }: SitesHallProps) {
  const store = useStore();
  const sites = useTable('sites');
  const interfaces = useTable('interfaces');
  const tasks = useTable('tasks');
  const steps = useTable('steps');
  const items = useTable('items');
  const taskAtHand = useTable('preferences').rows.get(preferencesKey)?.task ?? null;
  const { run, notice } = useAct();
  const form = useOpenForm<Open>();
  const [search, setSearch] = useState('');
  const [removing, setRemoving] = useState<Listed | null>(null);
  const [said, setSaid] = useState('');
  const heading = useRef<HTMLHeadingElement>(null);
  const focusHeading = useRef(false);

  const listed = useMemo(
    () => listedSites({ sites: sites.rows, interfaces: interfaces.rows }, search),
    [sites, interfaces, search],
  );
  const rows = useMemo(() => gridRows(listed), [listed]);
  const live = useMemo(() => [...items.rows.values()].filter(({ retired }) => !retired), [items]);
  const inHand = useMemo((): Listed | null => {
    const one = interfaces.rows.get(place.interface ?? '');
    const site = sites.rows.get(one?.site ?? place.site ?? '');
    if (site === undefined) return listed[0] ?? null;
    return one === undefined ? { kind: 'site', site } : { kind: 'interface', site, one };
  }, [sites, interfaces, listed, place.site, place.interface]);
  const own = useMemo(
    () => (inHand === null ? [] : byCode([...interfaces.rows.values()].filter(({ site }) => site === inHand.site.id))),
    [interfaces, inHand],
  );
  const uses = useMemo(() => {
    if (inHand === null) return [];
    const of =
      inHand.kind === 'site' ? { site: inHand.site, interfaces: own } : { site: null, interfaces: [inHand.one] };
    return usesOf(of, { tasks: tasks.rows, steps: steps.rows });
  }, [inHand, own, tasks, steps]);

  useEffect(() => {
    if (!focusHeading.current || heading.current === null) return;
    focusHeading.current = false;
    heading.current.focus();
  });

  const goToListed = (to: Listed): void =>
    goTo(
      to.kind === 'site' ? { at: 'sites', site: to.site.id } : { at: 'sites', site: to.site.id, interface: to.one.id },
      'replace',
    );
  const close = (): void => {
    if (!form.left()) focusHeading.current = true;
  };
  const saved = (what: string, to: Place): void => {
    setSaid(`${what} is saved.`);
    goTo(to, 'replace');
    close();
  };
  const edit = (): void => {
    if (inHand === null) return;
    form.show(
      inHand.kind === 'site'
        ? { kind: 'edit-site', site: inHand.site }
        : { kind: 'edit-interface', site: inHand.site, one: inHand.one },
    );
  };
  const addInterface = (): void => {
    if (inHand !== null) form.show({ kind: 'add-interface', site: inHand.site });
  };
  const done = async (act: Act, to: Place): Promise<void> => {
    if (!(await run(act))) return;
    setSaid(`${act.title}: done.`);
    goTo(to, 'replace');
    focusHeading.current = true;
  };
  const copy = (): void => {
    if (inHand === null) return;
    if (inHand.kind === 'interface') {
      const codes = new Set(own.map(({ code }) => code));
      const made = copyInterface(inHand.one, { id: store.newId(), codes });
      void done(made.act, { at: 'sites', site: inHand.site.id, interface: made.copy.id });
      return;
    }
    const codes = new Set([...sites.rows.values()].map(({ code }) => code));
    const made = copySite(inHand.site, { interfaces: own, codes, newId: store.newId });
    void done(made.act, { at: 'sites', site: made.copy.id });
  };
  const remove = (): void => {
    if (removing === null) return;
    setRemoving(null);
    if (removing.kind === 'site') void done(removeSite(removing.site, own), { at: 'sites' });
    else void done(removeInterface(removing.one), { at: 'sites', site: removing.site.id });
  };
  useAsked(
    siteAsking,
    (wish) => (wish === 'add-site' ? form.show({ kind: 'add-site' }) : addInterface()),
    sites.ready && interfaces.ready,
  );
  const onTableKey = (event: KeyboardEvent): void => {
    if (event.key !== 'F2' && event.key !== 'Delete') return;
    event.preventDefault();
    event.stopPropagation();
    if (event.key === 'F2') edit();
    else form.guarded(() => setRemoving(inHand));
  };

  const fault = sites.fault ?? interfaces.fault ?? tasks.fault ?? steps.fault ?? items.fault;
  if (fault !== null) return <Unread what="sites" reason={fault} />;
  if (!sites.ready || !interfaces.ready || !tasks.ready || !steps.ready)
    return (
      <p className="bw-task-open" role="status">
        Reading the sites…
      </p>
    );

  const { open } = form;
  const common = { leaveAsked: form.leaveAsked, onStay: form.stay, onLeave: close };
  const pane = () => {
    if (open?.kind === 'add-site' || open?.kind === 'edit-site')
      return (
        <SiteForm
          key={formKey(open)}
          {...common}
          sites={sites.rows}
          before={open.kind === 'edit-site' ? open.site : null}
          onSaved={(site) => saved(`Site ${nameOf(site)}`, { at: 'sites', site: site.id })}
        />
      );
    if (open !== null)
      return (
        <InterfaceForm
          key={formKey(open)}
          {...common}
          site={open.site}
          interfaces={interfaces.rows}
          items={live}
          units={units}
          before={open.kind === 'edit-interface' ? open.one : null}
          onSaved={(one) => saved(`Interface ${nameOf(one)}`, { at: 'sites', site: open.site.id, interface: one.id })}
        />
      );
    if (inHand === null)
      return (
        <div className="bw-task-sheet">
          <h1 ref={heading} tabIndex={-1} className="bw-heading">
            No site is kept yet
          </h1>
          <p>
            A site is where the work is: its interfaces say what hands and tools act on, how many there are and how a
            head is reached. Steps take fastener, count and access from them.
          </p>
          <div>
            <Button variant="filled" onClick={() => form.show({ kind: 'add-site' })}>
              Add the first site
            </Button>
          </div>
        </div>
      );
    const actions = (
      <RecordActions what={inHand.kind} onEdit={edit} onCopy={copy} onRemove={() => setRemoving(inHand)} />
    );
    if (inHand.kind === 'site')
      return (
        <SiteDetail
          site={inHand.site}
          interfaces={own}
          uses={uses}
          taskAtHand={taskAtHand}
          headingRef={heading}
          actions={actions}
          onAddInterface={addInterface}
        />
      );
    const { one } = inHand;
    const fastener = live.find((item) => item.kind === 'fastener' && item.code === one.fastener);
    return (
      <InterfaceDetail
        site={inHand.site}
        one={one}
        fastener={fastener?.kind === 'fastener' ? fastener : null}
        uses={uses}
        taskAtHand={taskAtHand}
        units={units}
        headingRef={heading}
        actions={actions}
      />
    );
  };
  const asked = { uses, taskAtHand, onRemove: remove, onStay: () => setRemoving(null) };

  return (
    <>
      <TwoPanes
        heading="Sites"
        region="Site in hand"
        said={`${countOf(sites.rows.size, 'site')}, ${countOf(interfaces.rows.size, 'interface')}`}
        buttons={
          <>
            <TextInput
              aria-label="Find a site or interface"
              placeholder="Find…"
              size="xs"
              value={search}
              onChange={({ currentTarget }) => setSearch(currentTarget.value)}
            />
            <span className="bw-nowrap bw-small">
              <a href={placeAddress({ at: 'watchouts' })}>Watch-outs</a>
            </span>
            <Button variant={open === null ? 'filled' : 'default'} onClick={() => form.show({ kind: 'add-site' })}>
              Add site
            </Button>
          </>
        }
        inHand={open === null ? (inHand === null ? null : rowId(inHand)) : 'form'}
        onTableKey={onTableKey}
        table={
          <RowGrid
            label="Sites"
            columns={siteColumns}
            rows={rows}
            selected={inHand === null || open?.kind === 'add-site' ? null : rowId(inHand)}
            onSelect={(id) => {
              const to = listed.find((row) => rowId(row) === id);
              if (to !== undefined) form.guarded(() => goToListed(to));
            }}
            onOpen={edit}
            empty={
              search === ''
                ? 'Sites and their interfaces appear here as soon as one is added.'
                : `No site or interface holds “${search}”.`
            }
          />
        }
      >
        {notice}
        {pane()}
      </TwoPanes>
      <span role="status" className="bw-hidden">
        {said}
      </span>
      {removing === null ? null : removing.kind === 'site' ? (
        <RemoveSite {...asked} site={removing.site} interfaces={own} />
      ) : (
        <RemoveInterface {...asked} one={removing.one} />
      )}
    </>
  );
}
