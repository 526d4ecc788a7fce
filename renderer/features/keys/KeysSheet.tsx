import { Dialog } from '../../components/Dialog/Dialog.tsx';
import type { Command } from '../palette/command.ts';
import { keysText } from '../palette/command.ts';
import './keys.css';

export interface KeysSheetProps {
  commands: Command[];
  singleKeys: boolean;
  onClose: () => void;
}

const inPlace: [string, string][] = [
  ['↑ ↓ Home End PgUp PgDn', 'In a table: take another row in hand'],
  ['Enter', 'In a table: to the sheet beside'],
  ['↑, then Shift with ← →', 'In the catalog: to the headings; a column narrower, wider; Shift Enter fits it'],
  ['← → Home End', 'In the job line: another place; Enter opens it'],
  ['Enter − + ↑ ↓ ← → T PgDn', 'In a bag map: pick up, how many, move, turn, over the next bag; Esc puts back'],
  ['Esc', 'Close what lies over the sheet'],
  ['Tab', 'Next field, table or button'],
];

/** Every key of the window and what it does. */
export function KeysSheet({ commands, singleKeys, onClose }: KeysSheetProps) {
  const keyed = commands.flatMap(({ id, keys, title }) => (keys === null ? [] : [{ id, keys, title }]));
  return (
    <Dialog title="Keys" onClose={onClose}>
      {singleKeys ? null : (
        <p className="bw-keys-off">
          Shortcuts of one letter are switched off in Settings. Ctrl K and the keys below the rule still work.
        </p>
      )}
      <table className="bw-keys">
        <thead>
          <tr>
            <th scope="col">Keys</th>
            <th scope="col">What they do</th>
          </tr>
        </thead>
        <tbody>
          {keyed.map(({ id, keys, title }) => (
            <tr key={id}>
              <td>
                <kbd>{keysText(keys)}</kbd>
              </td>
              <td>{title}</td>
            </tr>
          ))}
        </tbody>
        <tbody>
          {inPlace.map(([keys, what]) => (
            <tr key={keys + what}>
              <td>
                <kbd>{keys}</kbd>
              </td>
              <td>{what}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="bw-source">Commands without keys are found under Find or do, Ctrl K.</p>
    </Dialog>
  );
}
