import { Button } from '@mantine/core';
import { Switch } from '../../components/Switch/Switch.tsx';
import type { PackedBag } from '../../engine/packing/index.ts';
import { useSession } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import type { PackScreen } from './packScreen.ts';
import { bagWords, lackWords, outingWords } from './packWords.ts';

const touches = [
  { value: 'bare', label: 'Bare hands' },
  { value: 'gloved', label: 'Gloved' },
] as const;

export interface PackHeadProps extends PackScreen {
  bag: PackedBag | null;
  /** Where it goes on: "line 4 of 9". */
  at?: string | null;
  /** Whoever counts blind sees no number. */
  blind?: boolean;
  /** What is done, where it is not packing. */
  doing?: string;
  /** Where Leave goes; the manifest where nothing is said. */
  onLeave?: () => void;
}

/** What is packed, how far it is, and the way out: always at the same place. */
export function PackHead({
  atHand,
  revision,
  outing,
  frozen,
  state,
  gloved,
  bag,
  at = null,
  blind = false,
  doing,
  onLeave,
}: PackHeadProps) {
  const session = useSession();
  const { totals, last, issued } = state.packing;
  const name = bag === null ? outingWords(frozen.plan, outing) : bagWords(frozen.thing(bag.id));
  const lack = lackWords(totals);
  const resumed = last === null || at === null ? '' : ` · goes on at ${at}`;
  return (
    <header className="bw-pack-head">
      <Button className="bw-pack-big" onClick={onLeave ?? (() => goTo({ at: 'manifest', outing }))}>
        Leave
      </Button>
      <div className="bw-pack-title">
        <h1>
          {doing ?? 'Packing'} <bdi>{name}</bdi>
        </h1>
        <p className="bw-second">
          <bdi>{atHand.task.name}</bdi>, <bdi>{outingWords(frozen.plan, outing)}</bdi> · manifest revision{' '}
          {revision.number}
          {resumed}
          {issued === null ? '' : ' · out'}
        </p>
      </div>
      <Switch
        label="Touch"
        value={gloved ? 'gloved' : 'bare'}
        choices={touches}
        onChange={(value) => session.prefer({ gloved: value === 'gloved' })}
      />
      {blind ? null : (
        <div className="bw-pack-total">
          <p>
            <b className="bw-pack-number">{totals.packed}</b> of {totals.pieces} packed
          </p>
          <p>
            {lack === '' ? 'nothing missing' : lack}
            {bag === null || state.packing.bags.length < 2
              ? ''
              : ` · ${bag.id} ${bag.totals.packed} of ${bag.totals.pieces}`}
          </p>
        </div>
      )}
    </header>
  );
}
