import type { Ref } from 'react';
import styles from './SearchBox.module.css';

export interface SearchBoxProps {
  inputRef: Ref<HTMLInputElement>;
  /** What is searched, and by what; for those who do not see the hint. */
  label: string;
  hint: string;
  value: string;
  onValue: (value: string) => void;
  /** "18 of 214". */
  count: string;
  /** Down from the search: into the rows. */
  onDown: () => void;
}

/** A search with what it finds counted in it. Down and Enter go on to the rows, Escape empties it. */
export function SearchBox({ inputRef, label, hint, value, onValue, count, onDown }: SearchBoxProps) {
  return (
    <div className={styles['box']}>
      <input
        ref={inputRef}
        type="search"
        aria-label={label}
        placeholder={hint}
        autoComplete="off"
        spellCheck={false}
        value={value}
        onChange={({ currentTarget }) => onValue(currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key === 'ArrowDown' || event.key === 'Enter') {
            event.preventDefault();
            onDown();
          } else if (event.key === 'Escape' && value !== '') {
            event.preventDefault();
            onValue('');
          }
        }}
      />
      <span role="status" className="bw-second bw-small bw-nowrap">
        {count}
      </span>
    </div>
  );
}
