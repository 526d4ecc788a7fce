import { useState } from 'react';
import { cautionLead, cautionShort } from '../../engine/caution.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { StateMark } from '../StateMark/StateMark.tsx';
import type { MarkState } from '../StateMark/StateMark.tsx';
import { Switch } from '../Switch/Switch.tsx';
import './TitleStrip.css';

export interface Saving {
  state: Extract<MarkState, 'saved' | 'saving' | 'not-saved'>;
  text: string;
  /** Why it is not saved; stands here and not in a message that goes away. */
  reason: string | null;
}

export interface TitleStripProps {
  task: string;
  sheet: string;
  /** Number of the frozen manifest that is shown, or of the newest; null where no task is open. */
  revision: string | null;
  person: string;
  units: UnitsShown;
  onUnits: (units: UnitsShown) => void;
  saving: Saving;
  onSaveAgain: () => void;
}

export const unitChoices = [
  { value: 'as-written', label: 'As written' },
  { value: 'si', label: 'SI' },
  { value: 'inch-pound', label: 'Inch-pound' },
  { value: 'both', label: 'Both' },
] as const;

function Cell({ name, value }: { name: string; value: string }) {
  return (
    <div className="bw-strip-cell">
      <div className="bw-strip-key">{name}</div>
      <div className="bw-strip-value" title={value}>
        {value}
      </div>
    </div>
  );
}

/** The foot of the window: what is shown, how, whether it is saved, and the caution that never leaves. */
export function TitleStrip({ task, sheet, revision, person, units, onUnits, saving, onSaveAgain }: TitleStripProps) {
  const [open, setOpen] = useState(false);
  return (
    <footer className="bw-strip">
      <div className="bw-strip-rest" data-open={open || undefined} id="strip-rest">
        <Cell name="Task" value={task} />
        <Cell name="Sheet" value={sheet} />
        {revision === null ? null : <Cell name="Revision" value={revision} />}
        <div className="bw-strip-cell bw-strip-units">
          <div className="bw-strip-key">Units shown</div>
          <Switch label="Units shown" value={units} choices={unitChoices} onChange={onUnits} />
        </div>
        <Cell name="Person" value={person} />
      </div>
      <div className="bw-strip-cell bw-strip-save" data-bad={saving.state === 'not-saved' || undefined}>
        <div role="status">
          <div className="bw-strip-key">This machine</div>
          <div className="bw-strip-value">
            <StateMark state={saving.state} text={saving.text} />
          </div>
          {saving.reason === null ? null : <div className="bw-strip-reason">{saving.reason}</div>}
        </div>
        {saving.reason === null ? null : (
          <button type="button" className="bw-link bw-small" onClick={onSaveAgain}>
            Save again
          </button>
        )}
      </div>
      <button
        type="button"
        className="bw-strip-more"
        aria-expanded={open}
        aria-controls="strip-rest"
        onClick={() => setOpen(!open)}
      >
        Task, units, person
      </button>
      <p className="bw-strip-caution">
        <b>{cautionLead}</b> {cautionShort}
      </p>
    </footer>
  );
}
