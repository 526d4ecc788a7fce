import { Button } from '@mantine/core';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { Dialog } from '../Dialog/Dialog.tsx';
import { differences } from './differences.ts';
import './ConflictPanel.css';

/** A record as the person wants it and as it is kept now; null on the side where there is none. */
export interface RecordConflict {
  table: TableName;
  id: string;
  mine: AnyRecord | null;
  kept: AnyRecord | null;
}

export interface ConflictWords {
  /** A field as the form calls it; the record says of which kind it is. */
  labelOf: (table: TableName, path: string, record: AnyRecord) => string;
  /** Its value as lists show it. */
  valueOf: (table: TableName, path: string, value: unknown, record: AnyRecord) => string;
}

export interface ConflictPanelProps {
  conflicts: readonly RecordConflict[];
  words?: ConflictWords;
  onKeep: () => void;
  onMine: () => void;
  onEdit: () => void;
}

const plainWords: ConflictWords = {
  labelOf: (_table, path) => {
    const words = path.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`).replaceAll('.', ', ');
    return words.charAt(0).toUpperCase() + words.slice(1);
  },
  valueOf: (_table, _path, value) => plainText(value),
};

function plainText(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === true) return 'yes';
  if (value === false) return 'no';
  if (Array.isArray(value)) return value.map(plainText).join('; ');
  return typeof value === 'object' && value !== null ? JSON.stringify(value) : String(value);
}

function nameOf({ id, mine, kept }: RecordConflict): string {
  const record = mine ?? kept;
  if (record === null) return id;
  return 'code' in record ? record.code : 'name' in record ? record.name : id;
}

/** A record that was changed meanwhile: both versions side by side. Nothing is written over unless it is chosen here. */
export function ConflictPanel({ conflicts, words = plainWords, onKeep, onMine, onEdit }: ConflictPanelProps) {
  return (
    <Dialog title="Changed meanwhile: nothing was saved" onClose={onEdit} className="bw-conflict">
      <p>Since you began, somebody saved something else. Choose which version shall be kept.</p>
      {conflicts.map((conflict) => (
        <OneConflict key={`${conflict.table} ${conflict.id}`} conflict={conflict} words={words} />
      ))}
      <div className="bw-form-foot">
        <Button onClick={onEdit}>Go on editing</Button>
        <Button onClick={onKeep}>Keep what is kept now</Button>
        <Button onClick={onMine}>Put mine in its place</Button>
      </div>
    </Dialog>
  );
}

function OneConflict({ conflict, words }: { conflict: RecordConflict; words: ConflictWords }) {
  const { table, mine, kept } = conflict;
  const name = nameOf(conflict);
  if (kept === null) {
    return (
      <p>
        <b>{name}</b> was removed meanwhile. Putting yours in its place brings it back.
      </p>
    );
  }
  if (mine === null) {
    return (
      <p>
        <b>{name}</b>, which you want to remove, was changed meanwhile.
      </p>
    );
  }
  const differing = differences(mine, kept);
  if (differing.length === 0) {
    return (
      <p>
        <b>{name}</b>: what is kept now says the same as yours.
      </p>
    );
  }
  return (
    <table className="bw-conflict-table">
      <caption>{name}</caption>
      <thead>
        <tr>
          <th scope="col">Field</th>
          <th scope="col">Kept now</th>
          <th scope="col">Yours</th>
        </tr>
      </thead>
      <tbody>
        {differing.map(({ path, mine: own, kept: theirs }) => (
          <tr key={path}>
            <th scope="row">{words.labelOf(table, path, kept)}</th>
            <td>{words.valueOf(table, path, theirs, kept)}</td>
            <td>{words.valueOf(table, path, own, kept)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
