import { useMemo } from 'react';
import type { ReactNode, Ref } from 'react';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Interface, Site } from '../../../shared-types/records/site.ts';
import { quantityIn } from '../../engine/units/index.ts';
import { RefusedError } from '../../engine/errors.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { AccessDrawing } from '../../components/StackDrawing/AccessDrawing.tsx';
import type { AccessShape } from '../../components/StackDrawing/accessLayout.ts';
import { fastenerOffer } from '../steps/stepOffers.ts';
import { Facts } from '../task/Facts.tsx';
import { SaidWatchOuts } from '../watchOuts/SaidWatchOuts.tsx';
import { useInterfaceWatchOuts } from '../watchOuts/useInterfaceWatchOuts.ts';
import type { Use } from './siteUses.ts';
import { kindWords, nameOf, workedBy } from './siteWords.ts';
import { PatternOf } from './PatternOf.tsx';
import { UsesList } from './UsesList.tsx';

export interface InterfaceDetailProps {
  site: Site;
  one: Interface;
  /** The catalog's fastener of its code; the first shelf's, where several have one. */
  fastener: (Item & { kind: 'fastener' }) | null;
  uses: readonly Use[];
  taskAtHand: string | null;
  units: UnitsShown;
  headingRef: Ref<HTMLHeadingElement>;
  actions: ReactNode;
}

/** The head as the drawing needs it; none where its size is a name or cannot be read. */
function headOf(fastener: InterfaceDetailProps['fastener']): AccessShape['fastener'] {
  if (fastener === null || fastener.head.form === 'hexalobular') return null;
  try {
    const { form, acrossFlats } = fastener.head;
    return { headForm: form, acrossFlats: { mm: quantityIn(acrossFlats, 'length', 'mm'), typed: acrossFlats } };
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}

export function InterfaceDetail(props: InterfaceDetailProps) {
  const { site, one, fastener, uses, taskAtHand, units, headingRef, actions } = props;
  const head = useMemo(() => headOf(fastener), [fastener]);
  const watchOuts = useInterfaceWatchOuts(one);
  const said =
    one.fastener === undefined
      ? undefined
      : `${one.fastener} · ${fastener === null ? 'on no shelf' : fastenerOffer(fastener).words}`;
  return (
    <article className="bw-task-sheet" aria-labelledby="interface-heading">
      <header className="bw-task-head">
        <h1 id="interface-heading" ref={headingRef} tabIndex={-1} className="bw-heading">
          {one.code}
          {one.name === undefined ? '' : ` · ${one.name}`}
        </h1>
        <span className="bw-second">
          {kindWords[one.kind].toLowerCase()}, {one.count} × · {nameOf(site)}
        </span>
      </header>
      {actions}
      <SaidWatchOuts title="Before every step that touches it" said={watchOuts.said} onWrite={watchOuts.write} />
      {one.access === undefined ? (
        <p className="bw-second">No access is said: the head stands free.</p>
      ) : (
        <AccessDrawing name={`interface ${one.code}`} access={one.access} fastener={head} units={units} />
      )}
      <PatternOf one={one} thread={fastener?.thread ?? null} units={units} />
      <Facts
        facts={[
          ['Fastener', said],
          ['Worked', workedBy(one)],
          ['When done', one.desired],
          ['Notes', one.notes],
        ]}
      />
      <section aria-labelledby="uses-heading">
        <h2 id="uses-heading">Steps that act on it</h2>
        <UsesList uses={uses} what="interface" taskAtHand={taskAtHand} />
      </section>
    </article>
  );
}
