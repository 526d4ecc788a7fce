import { useEffect, useRef } from 'react';
import type { Doer } from '../../../shared-types/records/revision.ts';
import { usualReader } from '../../engine/tag/index.ts';
import type { TagReading } from '../../engine/tag/index.ts';
import { useDoer } from '../revisions/useDoer.tsx';
import { useScanner } from '../scan/useScanner.ts';
import { useSessionState } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { CountAgain } from './CountAgain.tsx';
import { IssueSheet } from './IssueSheet.tsx';
import type { PackDeskProps, PackScreen } from './packScreen.ts';
import { PackSheet } from './PackSheet.tsx';
import { sound } from './sounds.ts';
import { useKnown } from './useKnown.ts';
import { usePackingDesk } from './usePackingDesk.ts';
import type { AtDesk } from './usePackingDesk.ts';

const nobody: Doer = { name: '', role: '' };

/** An outing under its manifest: packed, counted again, let go. What was read by a reader goes to the desk, wherever the focus is. */
export function PackDesk(props: PackDeskProps) {
  const { place, atHand, revision, revisions, events, outing, frozen, now } = props;
  const { preferences } = useSessionState();
  const { doer: asked, withDoer: withName, dialog } = useDoer({ role: 'packer', atOnce: true });
  const doer = asked ?? nobody;
  const known = useKnown({ task: atHand.id, revision, revisions, events, outing, frozen });
  const at = usePackingDesk({ revision, revisions, events, outing, doer, elsewhere: known.elsewhere, now });
  const { desk, state } = at;
  const withDoer = (act: () => void): void => {
    // The name is known to the desk from the next look on.
    if (asked === null) withName(() => void setTimeout(act));
    else act();
  };
  const countsAgain = place.doing === 'again';
  const onRead = (reading: TagReading): void => {
    desk.read(reading);
    withName(() => undefined);
  };
  useScanner(preferences.scanner ?? usualReader, onRead, !countsAgain);
  useSounds(at, preferences.sounds ?? true);

  // The bag at hand is the address's; one that a label opened goes there.
  const bag = place.bag ?? state.packing.last?.bag ?? state.packing.next?.bag ?? state.packing.bags[0]?.id ?? null;
  useEffect(() => desk.open(bag), [desk, bag]);
  const opened = state.bag;
  const before = useRef(bag);
  useEffect(() => {
    if (opened === null || opened === before.current) return;
    before.current = opened;
    if (opened !== place.bag) goTo({ at: 'pack', outing, bag: opened }, 'replace');
  }, [opened, outing, place.bag]);

  const screen: PackScreen = { ...props, ...at, known, gloved: preferences.gloved ?? false, doer, withDoer };
  return (
    <>
      {place.doing === 'issue' ? (
        <IssueSheet {...screen} />
      ) : countsAgain && bag !== null ? (
        <CountAgain key={bag} {...screen} bag={bag} />
      ) : (
        <PackSheet {...screen} bag={bag} />
      )}
      {dialog}
    </>
  );
}

function useSounds({ state }: AtDesk, isOn: boolean): void {
  const { stop, heard } = state;
  const times = heard?.times ?? 0;
  useEffect(() => {
    if (isOn && times > 0) sound('counted');
  }, [isOn, times]);
  useEffect(() => {
    if (isOn && stop !== null) sound('refused');
  }, [isOn, stop]);
}
