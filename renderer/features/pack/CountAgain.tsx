import { useMemo, useState } from 'react';
import { Button } from '@mantine/core';
import type { DeedOf, Doer } from '../../../shared-types/records/revision.ts';
import { Switch } from '../../components/Switch/Switch.tsx';
import { isSamePerson, packersOf, sameAmount } from '../../engine/packing/index.ts';
import type { PackedLine } from '../../engine/packing/index.ts';
import { labelledThings } from '../../engine/record/tagClashes.ts';
import { usualReader } from '../../engine/tag/index.ts';
import { DoerFields, wholeDoer } from '../revisions/DoerFields.tsx';
import { useScanner } from '../scan/useScanner.ts';
import { useSessionState } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { countOf } from '../steps/words.ts';
import { AgainLines } from './AgainLines.tsx';
import { AgainResult } from './AgainResult.tsx';
import type { PackScreen } from './packScreen.ts';
import { PackHead } from './PackHead.tsx';
import { readAgain, toCountAgain } from './readAgain.ts';
import type { Tally } from './readAgain.ts';
import { sound } from './sounds.ts';
import { tagsKnown } from './tagsKnown.ts';

type Way = DeedOf<'second-count'>['way'];

const ways = [
  { value: 'blind', label: 'Blind: without the manifest’s numbers' },
  { value: 're-ordered', label: 'In another order, with the numbers' },
] as const;

const chunkMost = 10;

/** A bag counted again by another person: blind, or in another order; at most ten lines in sight, each kept by itself. */
export function CountAgain(props: PackScreen & { bag: string }) {
  const { desk, state, gloved, outing, bag: id, revision } = props;
  const { preferences } = useSessionState();
  const [given, setGiven] = useState<Doer>({ name: '', role: 'second counter' });
  const [asked, setAsked] = useState(false);
  const [by, setBy] = useState<Doer | null>(null);
  const [way, setWay] = useState<Way>('blind');
  const [recounts, setRecounts] = useState<readonly string[]>([]);
  const [tally, setTally] = useState<Tally>(new Map());
  const [said, setSaid] = useState<{ text: string; refused: boolean } | null>(null);
  const bag = state.packing.bags.find((one) => one.id === id);
  const open = bag === undefined ? [] : toCountAgain(bag, recounts);
  const chunk = open.slice(0, chunkMost);
  const tags = useMemo(() => tagsKnown(labelledThings(revision), []), [revision]);
  useScanner(
    preferences.scanner ?? usualReader,
    (reading) => {
      const found = readAgain(reading, { tags, lines: chunk, bag: id, tally });
      if ('refused' in found) {
        sound('refused');
        setSaid({ text: `Not counted: ${found.refused}`, refused: true });
      } else {
        sound('counted');
        setTally(found.tally);
        setSaid({ text: `Counted ${found.item}`, refused: false });
      }
    },
    by !== null,
  );
  const leave = (): void => goTo({ at: 'pack', outing, bag: id });
  if (bag === undefined) return null;
  const packers = packersOf(state.packing.fold, id);
  const begin = (): void => {
    setAsked(true);
    const whole = wholeDoer(given);
    if (whole === null) return;
    const same = packers.find((name) => isSamePerson(name, whole.name));
    if (same === undefined) setBy(whole);
    else {
      sound('refused');
      setSaid({ text: `${whole.name} packed this bag: another person counts it again`, refused: true });
    }
  };
  const keep = (item: string): void => {
    const held = tally.get(item);
    if (by === null || held === undefined) {
      setSaid({ text: `${item} is not counted yet: press None where nothing lies`, refused: true });
      return;
    }
    const refusal = desk.act([{ kind: 'second-count', bag: id, way, counts: [{ item, ...held.amount }] }], by);
    if (refusal === null) {
      setRecounts(recounts.filter((one) => one !== item));
      setTally(new Map([...tally].filter(([one]) => one !== item)));
      setSaid({ text: `Kept the count of ${item}`, refused: false });
    } else setSaid({ text: refusal, refused: true });
  };
  const differing = bag.lines.filter(differs).map(({ line }) => line.item);
  return (
    <div className="bw-pack" data-gloved={gloved || undefined}>
      <PackHead
        {...props}
        bag={bag}
        doing="Counting again"
        blind={way === 'blind' && open.length > 0}
        onLeave={leave}
      />
      <div className="bw-pack-one">
        {by === null ? (
          <form
            className="bw-accept bw-pack-scroll"
            noValidate
            onSubmit={(event) => {
              event.preventDefault();
              begin();
            }}
          >
            <p>
              Another person than who packed it counts the bag again.{' '}
              {packers.length === 0 ? 'Nobody has packed anything into it yet.' : `Packed by ${packers.join(', ')}.`}
            </p>
            <DoerFields given={given} onGiven={setGiven} asked={asked} />
            <Switch label="How it is counted" value={way} choices={ways} onChange={setWay} />
            <p role="status" className="bw-pack-said" data-refused={said?.refused || undefined}>
              {said?.text ?? ''}
            </p>
            <div className="bw-form-foot">
              <Button className="bw-pack-big" type="submit" variant="filled">
                Begin to count
              </Button>
            </div>
          </form>
        ) : open.length > 0 ? (
          <>
            <div className="bw-pack-scroll">
              <h2>
                {countOf(open.length, 'line')} to count{' '}
                <span className="bw-second">
                  by {by.name}, {way === 'blind' ? 'blind' : 'in another order'}
                </span>
              </h2>
              <AgainLines
                lines={chunk}
                showNumbers={way === 're-ordered'}
                tally={tally}
                onTally={setTally}
                onKeep={keep}
              />
            </div>
            <footer className="bw-pack-foot">
              <p role="status" className="bw-pack-said" data-refused={said?.refused || undefined}>
                {said === null ? '' : `${said.text}.`}
              </p>
            </footer>
          </>
        ) : (
          <AgainResult
            bag={bag}
            fold={state.packing.fold}
            by={by}
            onAgain={differing.length === 0 ? undefined : () => setRecounts(differing)}
            onExtra={(item, pieces) => {
              const counts = [{ item, pieces, parts: pieces }];
              const refusal = desk.act([{ kind: 'second-count', bag: id, way, counts }], by);
              setSaid(refusal === null ? null : { text: refusal, refused: true });
              return refusal;
            }}
            onLeave={leave}
          />
        )}
      </div>
    </div>
  );
}

function differs({ second, counted }: PackedLine): boolean {
  return second !== null && !sameAmount(second.amount, counted);
}
