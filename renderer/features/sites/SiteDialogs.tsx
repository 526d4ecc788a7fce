import type { Interface, Site } from '../../../shared-types/records/site.ts';
import { countOf } from '../steps/words.ts';
import { RemoveQuestion, RemoveRefused } from '../task/RemoveQuestion.tsx';
import type { Use } from './siteUses.ts';
import { nameOf } from './siteWords.ts';
import { UsesList } from './UsesList.tsx';

export interface RemoveDialogProps {
  uses: readonly Use[];
  taskAtHand: string | null;
  onRemove: () => void;
  onStay: () => void;
}

/** Asks before a site goes with its interfaces; while tasks use it, it stays, and they are named. */
export function RemoveSite(props: RemoveDialogProps & { site: Site; interfaces: readonly Interface[] }) {
  const { site, interfaces, uses, taskAtHand, onRemove, onStay } = props;
  if (uses.length > 0)
    return (
      <RemoveRefused what={`Site ${nameOf(site)}`} onStay={onStay}>
        <p>These use it. Give them another site, and their steps other interfaces first.</p>
        <UsesList uses={uses} what="site" taskAtHand={taskAtHand} />
      </RemoveRefused>
    );
  return (
    <RemoveQuestion what={`site ${site.code}`} onStay={onStay} onRemove={onRemove}>
      <p>
        <b>{nameOf(site)}</b> goes
        {interfaces.length === 0 ? '.' : `, and with it ${countOf(interfaces.length, 'interface')}.`} No task uses it.
      </p>
    </RemoveQuestion>
  );
}

/** The same for one interface, which steps may act on. */
export function RemoveInterface(props: RemoveDialogProps & { one: Interface }) {
  const { one, uses, taskAtHand, onRemove, onStay } = props;
  if (uses.length > 0)
    return (
      <RemoveRefused what={`Interface ${nameOf(one)}`} onStay={onStay}>
        <p>These steps act on it. Give them another interface, or none, first.</p>
        <UsesList uses={uses} what="interface" taskAtHand={taskAtHand} />
      </RemoveRefused>
    );
  return (
    <RemoveQuestion what={`interface ${one.code}`} onStay={onStay} onRemove={onRemove}>
      <p>
        <b>{nameOf(one)}</b> goes from its site. No step acts on it.
      </p>
    </RemoveQuestion>
  );
}
