import type { ReactNode, Ref } from 'react';
import { Button } from '@mantine/core';
import type { Interface, Site } from '../../../shared-types/records/site.ts';
import { Facts } from '../task/Facts.tsx';
import { accessText } from '../steps/fromInterface.ts';
import { goTo } from '../session/usePlace.ts';
import type { Use } from './siteUses.ts';
import { kindWords, nameOf } from './siteWords.ts';
import { UsesList } from './UsesList.tsx';

export interface SiteDetailProps {
  site: Site;
  interfaces: readonly Interface[];
  uses: readonly Use[];
  taskAtHand: string | null;
  headingRef: Ref<HTMLHeadingElement>;
  actions: ReactNode;
  onAddInterface: () => void;
}

export function SiteDetail(props: SiteDetailProps) {
  const { site, interfaces, uses, taskAtHand, headingRef, actions, onAddInterface } = props;
  return (
    <article className="bw-task-sheet" aria-labelledby="site-heading">
      <header className="bw-task-head">
        <h1 id="site-heading" ref={headingRef} tabIndex={-1} className="bw-heading">
          {nameOf(site)}
        </h1>
        <span className="bw-second bw-code">{site.code}</span>
      </header>
      {actions}
      <Facts facts={[['Notes', site.notes]]} />
      <section aria-labelledby="touched-heading">
        <div className="bw-task-head">
          <h2 id="touched-heading">What hands and tools act on</h2>
          <Button size="xs" onClick={onAddInterface}>
            Add interface
          </Button>
        </div>
        {interfaces.length === 0 ? (
          <p className="bw-second">
            No interface yet: add the bolts, couplings, connectors, latches and covers of this site.
          </p>
        ) : (
          <div
            className="bw-task-scroll"
            tabIndex={0}
            role="group"
            aria-label="Interfaces, scrolls sideways where narrow"
          >
            <table className="bw-task-table">
              <thead>
                <tr>
                  <th scope="col">Interface</th>
                  <th scope="col">Kind</th>
                  <th scope="col" className="bw-end">
                    Count
                  </th>
                  <th scope="col">Fastener</th>
                  <th scope="col">Access</th>
                </tr>
              </thead>
              <tbody>
                {interfaces.map((one) => (
                  <tr key={one.id}>
                    <th scope="row">
                      <button
                        type="button"
                        className="bw-link"
                        onClick={() => goTo({ at: 'sites', site: site.id, interface: one.id })}
                      >
                        <CodeAndName code={one.code} name={one.name} />
                      </button>
                    </th>
                    <td className="bw-nowrap">{kindWords[one.kind]}</td>
                    <td className="bw-end">{one.count}</td>
                    <td>{one.fastener === undefined ? '–' : <span className="bw-code">{one.fastener}</span>}</td>
                    <td>{one.access === undefined ? 'stands free' : accessText(one.access)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        )}
      </section>
      <section aria-labelledby="uses-heading">
        <h2 id="uses-heading">Tasks there</h2>
        <UsesList uses={uses} what="site" taskAtHand={taskAtHand} />
      </section>
    </article>
  );
}

/** A name written from right to left turns nothing around it. */
function CodeAndName({ code, name }: { code: string; name: string | undefined }) {
  return (
    <span>
      {code}
      {name === undefined ? null : (
        <>
          {' '}
          <bdi>{name}</bdi>
        </>
      )}
    </span>
  );
}
