import { useDeferredValue, useEffect, useId, useMemo, useRef, useState } from 'react';
import type { KeyboardEvent } from 'react';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { find } from './findings.ts';
import type { Finding } from './findings.ts';
import './palette.css';

export interface PaletteProps {
  commands: Finding[];
  /** Steps and items of the plan at hand and tables of the handbook, listed once something is typed. */
  rest: { count: number; list: () => Finding[] };
  onClose: () => void;
}

const shownMost = 60;

/** Find or do: every command with its keys while the field is empty, and steps, items and tables once something is typed. */
export function Palette({ commands, rest, onClose }: PaletteProps) {
  const [query, setQuery] = useState('');
  const [at, setAt] = useState(0);
  const listId = useId();
  const list = useRef<HTMLUListElement>(null);
  const asked = useDeferredValue(query);
  const typed = asked.trim() !== '';
  const { list: listRest } = rest;
  const inPlan = useMemo(() => (typed ? listRest() : []), [typed, listRest]);
  const found = useMemo(() => find(asked, commands, inPlan), [asked, commands, inPlan]);
  const shown = typed ? found.slice(0, shownMost) : found;
  const current = shown[Math.min(at, shown.length - 1)];

  useEffect(() => {
    list.current?.querySelector('[aria-selected="true"]')?.scrollIntoView({ block: 'nearest' });
  }, [current]);

  const take = (finding: Finding | undefined): void => {
    if (finding === undefined || finding.hindered) return;
    onClose();
    // After the dialog has given the focus back, so that what runs may take it.
    setTimeout(finding.run);
  };
  const meant = (): Finding | undefined => {
    const now = find(query, commands, query.trim() === '' ? [] : listRest());
    return now[Math.min(at, now.length - 1)];
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const last = shown.length - 1;
    const to: Record<string, number> = {
      ArrowDown: at >= last ? 0 : at + 1,
      ArrowUp: at <= 0 ? last : at - 1,
      PageDown: Math.min(at + 8, last),
      PageUp: Math.max(at - 8, 0),
    };
    if (event.key === 'Enter') {
      event.preventDefault();
      // What is shown may lag behind what is typed; what is typed is meant.
      take(asked === query ? current : meant());
      return;
    }
    const next = to[event.key];
    if (next === undefined) return;
    event.preventDefault();
    setAt(Math.max(next, 0));
  };

  return (
    <Dialog title="Find or do" bare className="bw-palette" onClose={onClose}>
      <div className="bw-palette-field">
        <input
          type="text"
          role="combobox"
          aria-label="Find or do"
          aria-expanded="true"
          aria-controls={listId}
          aria-autocomplete="list"
          aria-activedescendant={current === undefined ? undefined : `${listId}-${shown.indexOf(current)}`}
          placeholder="Find or do…"
          autoComplete="off"
          spellCheck={false}
          value={query}
          onChange={({ currentTarget: { value } }) => {
            setQuery(value);
            setAt(0);
          }}
          onKeyDown={onKeyDown}
        />
        <span className="bw-second bw-small" role="status">
          {found.length} of {commands.length + rest.count}
        </span>
      </div>
      <ul className="bw-palette-list" id={listId} ref={list} role="listbox" aria-label="Found">
        {shown.map((finding, index) => (
          <li
            key={finding.id}
            id={`${listId}-${index}`}
            role="option"
            aria-selected={finding === current}
            aria-disabled={finding.hindered || undefined}
            className="bw-palette-row"
            data-command={finding.id}
            onClick={() => take(finding)}
            onPointerMove={() => setAt(index)}
          >
            <span className="bw-second">{finding.kind}</span>
            <span>{finding.title}</span>
            <span className="bw-second bw-small">{finding.note}</span>
            <span>{finding.keys === null ? null : <kbd>{finding.keys}</kbd>}</span>
          </li>
        ))}
      </ul>
      {shown.length === 0 ? <p className="bw-palette-none">Nothing here holds “{asked}”.</p> : null}
      {found.length > shown.length ? (
        <p className="bw-palette-none bw-second bw-small">
          The first {shown.length} of {found.length}; type more to narrow them.
        </p>
      ) : null}
      <p className="bw-palette-foot bw-second bw-small">
        <span>↑ ↓ move</span>
        <span>Enter takes</span>
        <span>Esc leaves</span>
        <span>empty: every command and its keys</span>
      </p>
    </Dialog>
  );
}
