import { useEffect, useState } from 'react';
import { Button } from '@mantine/core';
import type { Deed } from '../../../shared-types/records/revision.ts';
import { countedBefore } from '../../engine/packing/index.ts';
import type { PackedBag, PackedLine } from '../../engine/packing/index.ts';
import { goTo } from '../session/usePlace.ts';
import { BagSide } from './BagSide.tsx';
import { CarryOverBar } from './CarryOverBar.tsx';
import { LineRow } from './LineRow.tsx';
import { MoreDeeds } from './MoreDeeds.tsx';
import { LineDeeds } from './LineDeeds.tsx';
import { PackDialogs } from './PackDialogs.tsx';
import type { Over, PackScreen, Said } from './packScreen.ts';
import { PackFoot } from './PackFoot.tsx';
import { PackHead } from './PackHead.tsx';
import { bagWords, chunkWords } from './packWords.ts';
import { sound } from './sounds.ts';

/** Packing: the bag at hand, ten lines of it at the most, and what can be done about them. */
export function PackSheet(props: PackScreen & { bag: string | null }) {
  const { desk, state, frozen, gloved, withDoer, revision, revisions, events, outing, known } = props;
  const { packing } = state;
  const [chosen, setChosen] = useState<{ bag: string; index: number; after: number } | null>(null);
  const [said, setSaid] = useState<Said | null>(null);
  const [over, setOver] = useState<Over | null>(null);
  const bag = packing.bags.find(({ id }) => id === props.bag) ?? packing.bags[0];
  const tell = (text: string, refused = false): void => {
    setSaid({ text, refused });
    if (refused) sound('refused');
  };
  const act = (deeds: readonly Deed[], done: string): void =>
    withDoer(() => {
      const refusal = desk.act(deeds);
      tell(refusal ?? done, refusal !== null);
    });
  useNextInSight(`${packing.last?.no ?? 0} ${bag?.id} ${gloved}`);
  if (bag === undefined)
    return (
      <div className="bw-pack">
        <PackHead {...props} bag={null} />
        <p className="bw-pack-nothing">Nothing is packed on this outing: its steps need no tools and no gear.</p>
      </div>
    );
  const next = packing.next?.bag === bag.id ? packing.next.item : null;
  const held =
    chosen !== null && chosen.bag === bag.id && chosen.after === (packing.last?.no ?? 0) ? chosen.index : null;
  const index = held ?? chunkAtHand(bag, packing.last?.bag === bag.id ? packing.last.item : null, next);
  const chunk = bag.chunks[index];
  const inChunk = nextIn(chunk?.lines ?? [], next, packing.last?.item ?? null);
  const then = bag.chunks.findIndex(({ lines }, at) => at !== index && lines.some(({ open }) => open.parts > 0));
  const press = (line: PackedLine): void => {
    if (line.thing.parts > 1 && line.open.parts > 0 && bag.closed === null) {
      withDoer(() => setOver({ kind: 'parts', line, label: null }));
      return;
    }
    act([{ kind: 'counted', bag: bag.id, item: line.line.item, pieces: 1, parts: 1 }], `Counted ${line.line.item}`);
  };
  const onward = then === -1 && packing.next !== null && packing.next.bag !== bag.id ? packing.next.bag : null;
  const before = packing.last === null ? countedBefore(revisions, events, { revision, outing }) : null;
  return (
    <div className="bw-pack" data-gloved={gloved || undefined}>
      <PackHead {...props} bag={bag} at={lineAt(bag, inChunk ?? next)} />
      <div className="bw-pack-body">
        <BagSide
          {...{ frozen, packing, bag, gloved, next }}
          chunk={index}
          more={<MoreDeeds {...props} bag={bag} onOver={setOver} />}
          onChunk={(at) => setChosen({ bag: bag.id, index: at, after: packing.last?.no ?? 0 })}
        />
        <section className="bw-pack-lines" aria-labelledby="pack-chunk">
          <div className="bw-pack-scroll">
            {before === null ? null : <CarryOverBar {...props} before={before} tell={tell} />}
            {known.rest.length === 0 ? null : (
              <ul className="bw-pack-known" aria-label="Known of earlier outings">
                {known.rest.map((one) => (
                  <li key={one}>{one}</li>
                ))}
              </ul>
            )}
            <div className="bw-pack-chunk">
              <h2 id="pack-chunk">{chunk === undefined ? 'No lines' : chunkWords(chunk, bag)}</h2>
              <span className="bw-second">
                {bag.closed === null ? 'scan, or press the line' : `${bagWords(frozen.thing(bag.id))} is closed`}
              </span>
            </div>
            <ul className="bw-pack-list">
              {chunk?.lines.map((line) => (
                <LineRow
                  key={line.line.item}
                  {...{ line, gloved }}
                  isNext={line.line.item === inChunk && bag.closed === null}
                  words={known.words.get(line.line.item) ?? []}
                  onPress={() => press(line)}
                  onAll={
                    line.open.pieces > 1 && bag.closed === null
                      ? () =>
                          act(
                            [
                              {
                                ...{ kind: 'counted', bag: bag.id, item: line.line.item, pieces: line.open.pieces },
                                parts: line.open.pieces * line.thing.parts,
                              },
                            ],
                            `Counted all ${line.open.pieces} of ${line.line.item}`,
                          )
                      : undefined
                  }
                >
                  <LineDeeds line={line} bag={bag} act={act} onOver={setOver} />
                </LineRow>
              ))}
            </ul>
            {then === -1 || bag.closed !== null ? null : (
              <Button
                className="bw-pack-big bw-pack-then"
                onClick={() => setChosen({ bag: bag.id, index: then, after: packing.last?.no ?? 0 })}
              >
                Go on with {chunkWords(bag.chunks[then] ?? { pocket: null, part: 1, parts: 1, lines: [] }, bag)}
              </Button>
            )}
            {onward === null ? null : (
              <Button
                className="bw-pack-big bw-pack-then"
                onClick={() => goTo({ at: 'pack', outing, bag: onward }, 'replace')}
              >
                Go on with {bagWords(frozen.thing(onward))}
              </Button>
            )}
          </div>
          <PackFoot {...props} bag={bag} said={said} act={act} tell={tell} onOver={setOver} />
        </section>
      </div>
      <PackDialogs {...props} {...{ bag, over, act }} next={inChunk ?? next} onOver={setOver} />
    </div>
  );
}

/** The line where the hand goes on is brought into sight: on the way in, and after each deed. */
function useNextInSight(after: string): void {
  useEffect(() => {
    document.querySelector('.bw-pack-line:has([aria-current="step"])')?.scrollIntoView({ block: 'nearest' });
  }, [after]);
}

/** "line 4 of 9" */
function lineAt({ lines }: PackedBag, item: string | null): string | null {
  const at = lines.findIndex(({ line }) => line.item === item);
  return at === -1 ? null : `line ${at + 1} of ${lines.length}`;
}

/** Where the hand was last; where it was nowhere, where there is something open. */
function chunkAtHand({ chunks }: PackedBag, last: string | null, next: string | null): number {
  const at = (item: string | null): number =>
    chunks.findIndex(({ lines }) => lines.some(({ line }) => line.item === item));
  const [lastAt, nextAt] = [at(last), at(next)];
  return Math.max(0, lastAt === -1 ? nextAt : lastAt);
}

/** Of the lines shown, where the hand goes on: the next of the bag, or the first open one after the last. */
function nextIn(lines: readonly PackedLine[], next: string | null, last: string | null): string | null {
  if (lines.some(({ line }) => line.item === next)) return next;
  const from = Math.max(
    0,
    lines.findIndex(({ line }) => line.item === last),
  );
  return [...lines.slice(from), ...lines.slice(0, from)].find(({ open }) => open.parts > 0)?.line.item ?? null;
}
