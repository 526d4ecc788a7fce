import type { Deed } from '../../../shared-types/records/revision.ts';
import type { PackedBag } from '../../engine/packing/index.ts';
import { AmountDialog } from './dialogs/AmountDialog.tsx';
import { CloseDialog } from './dialogs/CloseDialog.tsx';
import { MissingDialog } from './dialogs/MissingDialog.tsx';
import { PlanWithoutDialog } from './dialogs/PlanWithoutDialog.tsx';
import { StopDialog } from './dialogs/StopDialog.tsx';
import { WordsDialog } from './dialogs/WordsDialog.tsx';
import type { Over, PackScreen } from './packScreen.ts';
import { bagWords } from './packWords.ts';

export interface PackDialogsProps extends PackScreen {
  bag: PackedBag;
  over: Over | null;
  /** Code of the line where the hand goes on. */
  next: string | null;
  act: (deeds: readonly Deed[], done: string) => void;
  onOver: (over: Over | null) => void;
}

/** The sheets over the packing. What stopped it lies above whatever was begun, which stays as it was. */
export function PackDialogs(props: PackDialogsProps) {
  return (
    <>
      <OverPacking {...props} />
      <Stopped {...props} />
    </>
  );
}

/** What a reader brought up: a code that was not counted, or one that does not say how many. */
function Stopped({ desk, state, gloved, act }: PackDialogsProps) {
  if (state.stop !== null)
    return <StopDialog stop={state.stop} queued={state.queued} gloved={gloved} onSeen={() => desk.goOn()} />;
  const { asked } = state;
  const line = state.packing.bags
    .find(({ id }) => id === asked?.bag)
    ?.lines.find((one) => one.line.item === asked?.item);
  return asked === null || line === undefined ? null : (
    <AmountDialog
      {...{ line, gloved }}
      label={asked.label}
      onCounted={(deed, said) => {
        act([deed], said);
        desk.goOn();
      }}
      onClose={() => desk.goOn()}
    />
  );
}

function OverPacking(props: PackDialogsProps) {
  const { desk, frozen, gloved, bag, over, next, act, onOver } = props;
  const close = (): void => onOver(null);
  const done = (deeds: readonly Deed[], said: string): void => {
    close();
    act(deeds, said);
  };
  if (over === null) return null;
  const name = bagWords(frozen.thing(bag.id));
  switch (over.kind) {
    case 'parts':
      return (
        <AmountDialog
          {...{ gloved }}
          line={over.line}
          label={over.label}
          onCounted={(deed, said) => done([deed], said)}
          onClose={close}
        />
      );
    case 'missing':
      return <MissingDialog {...{ bag, next, gloved }} onMissing={done} onClose={close} />;
    case 'close':
      return <CloseDialog {...{ bag, name, gloved, desk }} onClosed={close} onClose={close} />;
    case 'open':
      return (
        <WordsDialog
          title={`Open ${name} again`}
          label="Reason"
          button="Open bag again"
          said="What was closed is open again, and is closed anew when it is whole."
          gloved={gloved}
          onWords={(reason) => done([{ kind: 'bag-opened', bag: bag.id, reason }], `Opened ${name} again`)}
          onClose={close}
        />
      );
    case 'remark':
      return (
        <WordsDialog
          title={`Remark on ${name}`}
          label="Remark"
          button="Keep remark"
          said="It is kept with the record, with name and time, and changes no count."
          gloved={gloved}
          onWords={(words) => done([{ kind: 'remark', words, bag: bag.id }], 'Remark kept')}
          onClose={close}
        />
      );
    case 'plan-without':
      return <PlanWithoutDialog {...props} onClose={close} />;
  }
}
