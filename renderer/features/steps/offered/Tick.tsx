import type { ReactNode } from 'react';

export interface TickProps {
  checked: boolean;
  onChange: (checked: boolean) => void;
  children: ReactNode;
}

/** The browser's own box with its words: seen in every scheme, and the words are its target too. */
export function Tick({ checked, onChange, children }: TickProps) {
  return (
    <label className="bw-offered-tick">
      <input type="checkbox" checked={checked} onChange={({ currentTarget }) => onChange(currentTarget.checked)} />
      <span>{children}</span>
    </label>
  );
}
