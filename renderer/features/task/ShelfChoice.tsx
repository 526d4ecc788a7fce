import type { Shelf } from '../../../shared-types/records/item.ts';

export interface ShelfChoiceProps {
  id: string;
  shelves: readonly Shelf[];
  /** Keys of those chosen. */
  value: readonly string[];
  error: string | undefined;
  onChange: (keys: string[]) => void;
}

/** The shelves a task may draw on: any of them. */
export function ShelfChoice({ id, shelves, value, error, onChange }: ShelfChoiceProps) {
  const gone = value.filter((key) => !shelves.some((shelf) => shelf.id === key));
  const toggle = (key: string, on: boolean): void =>
    onChange(on ? [...value, key] : value.filter((chosen) => chosen !== key));
  const line = (key: string, name: string) => (
    <label key={key} className="bw-check-line">
      <input
        type="checkbox"
        checked={value.includes(key)}
        onChange={({ currentTarget }) => toggle(key, currentTarget.checked)}
      />
      <span>{name}</span>
    </label>
  );
  return (
    <fieldset className="bw-form-group" aria-describedby={error === undefined ? undefined : `${id}-error`}>
      <legend>Shelves it draws on</legend>
      <div id={id} tabIndex={-1} className="bw-checks-of">
        {shelves.length === 0 && gone.length === 0 ? (
          <p className="bw-second">
            No shelf is kept yet. Steps can be written without one; stacks need the items of one.
          </p>
        ) : null}
        {shelves.map((shelf) => line(shelf.id, shelf.name))}
        {gone.map((key) => line(key, 'A shelf that is not kept any more'))}
      </div>
      {error === undefined ? null : (
        <p id={`${id}-error`} className="bw-check-error">
          {error}
        </p>
      )}
    </fieldset>
  );
}
