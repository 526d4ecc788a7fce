import { useMemo, useState } from 'react';
import { Button, Textarea, TextInput } from '@mantine/core';
import type { Item } from '../../../shared-types/records/item.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { MarkState } from '../../components/StateMark/StateMark.tsx';
import { checksBeforeIssue } from '../../engine/packing/index.ts';
import type { IssueCheck } from '../../engine/packing/index.ts';
import { usualReader } from '../../engine/tag/index.ts';
import { dayText } from '../../store/clock.ts';
import { placeAddress } from '../../store/place.ts';
import { useScanner } from '../scan/useScanner.ts';
import { useSessionState } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { useTable } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { ChecksTable } from './ChecksTable.tsx';
import { StopDialog } from './dialogs/StopDialog.tsx';
import { WordsDialog } from './dialogs/WordsDialog.tsx';
import type { PackScreen } from './packScreen.ts';
import { PackHead } from './PackHead.tsx';
import { outingWords } from './packWords.ts';
import { sound } from './sounds.ts';

const dayForm = /^\d{4}-\d{2}-\d{2}$/;

/** Everything looked at before the bags leave, each with what there is and what is needed; and the act that lets them go. */
export function IssueSheet(props: PackScreen) {
  const { desk, state, frozen, gloved, revision, outing, place, now, doer, withDoer } = props;
  const { packing } = state;
  const { preferences } = useSessionState();
  const [day, setDay] = useState(() => dayText(now()));
  const [words, setWords] = useState('');
  const [said, setSaid] = useState<string | null>(null);
  const [takingBack, setTakingBack] = useState(false);
  const items = useTable('items');
  const lists = useTable('asRunLists');
  useScanner(preferences.scanner ?? usualReader, () => {
    sound('refused');
    setSaid('Nothing is counted on this sheet: leave it first');
  });
  const isDay = dayForm.test(day.trim()) && !Number.isNaN(Date.parse(day.trim()));
  const checks = useMemo(() => {
    const byRecord = new Map([...items.rows.values()].map((item) => [item.id, item]));
    const catalog = new Map(
      revision.content.things.flatMap(({ id, record }) => {
        const item = record === undefined ? undefined : byRecord.get(record);
        return item?.kind === 'torque-tool' ? [[id, { serial: item.serial, calibrationDue: item.calibrationDue }]] : [];
      }),
    );
    const foundOut = [...lists.rows.values()].flatMap((list) => list.foundOut ?? []);
    return checksBeforeIssue(frozen, packing, { day: day.trim(), catalog, foundOut });
  }, [frozen, packing, day, items.rows, lists.rows, revision]);
  const ways = checks.map((check) => <WayOn key={check.what} {...{ check, revision, packing }} items={items.rows} />);
  const count = (of: IssueCheck['state']): number => checks.filter((check) => check.state === of).length;
  const today = dayText(now());
  // A day that is over would let a tool go whose calibration has run out since.
  const isOver = isDay && day.trim() < today;
  const why = !isDay
    ? 'The day of the outing is not a day: type it as 2026-11-25'
    : isOver
      ? `The day of the outing is over: today is ${today}`
      : count('blocks') > 0
        ? `${countOf(count('blocks'), 'check')} ${count('blocks') === 1 ? 'keeps' : 'keep'} it back`
        : null;
  const name = outingWords(frozen.plan, outing);
  const issue = (): void =>
    withDoer(() => {
      if (why !== null) {
        setSaid(why);
        return;
      }
      const refusal = desk.act([{ kind: 'issued', ...(words.trim() === '' ? {} : { words: words.trim() }) }]);
      setSaid(refusal ?? `${name} is out`);
    });
  const { issued } = packing;
  return (
    <div className="bw-pack" data-gloved={gloved || undefined}>
      <PackHead
        {...props}
        bag={null}
        doing={issued === null ? 'Before it leaves:' : 'Out:'}
        onLeave={() => goTo({ at: 'pack', outing, ...(place.bag === undefined ? {} : { bag: place.bag }) })}
      />
      <div className="bw-pack-one">
        <div className="bw-pack-scroll">
          {issued === null ? null : (
            <p className="bw-pack-out">
              <StateMark state="out" text="Out" size={24} /> since {issued.at.slice(0, 10)} {issued.at.slice(11, 16)},
              issued by <bdi>{issued.by.name}</bdi>, <bdi>{issued.by.role}</bdi>
              {issued.deed.kind === 'issued' && issued.deed.words !== undefined ? (
                <>
                  : <bdi>{issued.deed.words}</bdi>
                </>
              ) : null}
            </p>
          )}
          <div className="bw-pack-summary">
            <StateMark state={summaryMark(count)} text={summaryText(count, checks.length)} size={24} />
            <TextInput
              label="Day of the outing"
              description="as 2026-11-25"
              value={day}
              error={isDay ? (isOver ? `It is over: today is ${today}.` : undefined) : 'Not a day.'}
              onChange={({ currentTarget: { value } }) => setDay(value)}
            />
          </div>
          <ChecksTable checks={checks} ways={ways} />
          {issued !== null ? null : (
            <Textarea
              className="bw-field"
              label="Words with the issue, if any"
              autosize
              minRows={2}
              maxRows={6}
              maxLength={2000}
              value={words}
              onChange={({ currentTarget: { value } }) => setWords(value)}
            />
          )}
        </div>
        <footer className="bw-pack-foot">
          <p role="status" className="bw-pack-said">
            {said === null ? '' : `${said}.`}
          </p>
          <div className="bw-pack-buttons">
            {issued === null ? (
              <Button
                className="bw-pack-big"
                variant={why === null ? 'filled' : 'default'}
                data-short={why !== null || undefined}
                onClick={issue}
              >
                <span>
                  Issue {name}
                  <span className="bw-pack-why">{why ?? `as ${doer.name === '' ? 'whoever packs' : doer.name}`}</span>
                </span>
              </Button>
            ) : (
              <Button className="bw-pack-big" onClick={() => withDoer(() => setTakingBack(true))}>
                Take back the issue…
              </Button>
            )}
          </div>
        </footer>
      </div>
      {state.stop === null ? null : (
        <StopDialog stop={state.stop} queued={state.queued} gloved={gloved} onSeen={() => desk.goOn()} />
      )}
      {takingBack && issued !== null ? (
        <WordsDialog
          title="Take back the issue"
          label="Reason"
          button="Take back the issue"
          said="The outing is not out any more. The issue stays in the record, with what is said here."
          gloved={gloved}
          onWords={(reason) => {
            setTakingBack(false);
            void desk.settled().then(() => {
              const out = desk.state().packing.issued;
              const refusal = out === null ? 'It is not out' : desk.act([{ kind: 'taken-back', of: out.no, reason }]);
              setSaid(refusal ?? 'The issue is taken back');
            });
          }}
          onClose={() => setTakingBack(false)}
        />
      ) : null}
    </div>
  );
}

type Count = (of: IssueCheck['state']) => number;

function summaryMark(count: Count): MarkState {
  return count('blocks') > 0 ? 'nonconforming' : 'conforming';
}

function summaryText(count: Count, all: number): string {
  const [blocks, noted] = [count('blocks'), count('noted')];
  const said =
    blocks > 0
      ? `${blocks} of ${countOf(all, 'check')} ${blocks === 1 ? 'keeps' : 'keep'} it back`
      : `${countOf(all, 'check')}, none keeps it back`;
  return noted === 0 ? said : `${said}; ${noted} noted`;
}

interface WayOnProps {
  check: IssueCheck;
  revision: PackScreen['revision'];
  packing: PackScreen['state']['packing'];
  items: ReadonlyMap<string, Item>;
}

/** To the thing in the catalog, and to the bag it lies in. */
function WayOn({ check: { item, about }, revision, packing, items }: WayOnProps) {
  const record = revision.content.things.find(({ id }) => id === item)?.record;
  const shelf = record === undefined ? undefined : items.get(record)?.shelf;
  const bag = packing.bags.find(({ lines }) => lines.some(({ line }) => line.item === item))?.id;
  return (
    <>
      {about === 'calibration' && record !== undefined && shelf !== undefined ? (
        <a href={placeAddress({ at: 'catalog', shelf, item: record })}>{item} in the catalog</a>
      ) : null}{' '}
      {bag === undefined ? null : <a href={placeAddress({ at: 'pack', outing: packing.outing, bag })}>Bag {bag}</a>}
    </>
  );
}
