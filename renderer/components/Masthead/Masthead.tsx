import './Masthead.css';

export interface Hall {
  name: string;
  address: string;
  current: boolean;
}

export interface MastheadProps {
  halls: Hall[];
  /** Where the program's own name leads. */
  homeAddress: string;
  onFind: () => void;
  onKeys: () => void;
  onSettings: () => void;
}

export function Masthead({ halls, homeAddress, onFind, onKeys, onSettings }: MastheadProps) {
  return (
    <header className="bw-masthead">
      <a className="bw-masthead-word" href={homeAddress}>
        <svg
          width="22"
          height="22"
          viewBox="0 0 22 22"
          aria-hidden="true"
          fill="none"
          stroke="currentColor"
          strokeWidth="2"
        >
          <path d="M2 6.5V19.5H20V6.5" />
          <polygon points="11,3.6 16,6.5 16,12.2 11,15.1 6,12.2 6,6.5" />
        </svg>
        Bagwright
      </a>
      <nav className="bw-masthead-halls" aria-label="Halls">
        {halls.map(({ name, address, current }) => (
          <a key={name} href={address} aria-current={current ? 'true' : undefined}>
            {name}
          </a>
        ))}
      </nav>
      <button type="button" className="bw-masthead-finder" aria-haspopup="dialog" onClick={onFind}>
        <span>Find or do…</span>
        <kbd>Ctrl K</kbd>
      </button>
      <button type="button" className="bw-masthead-bare" aria-haspopup="dialog" onClick={onKeys}>
        <kbd>?</kbd> Keys
      </button>
      <button type="button" className="bw-masthead-bare" aria-haspopup="dialog" onClick={onSettings}>
        Settings
      </button>
    </header>
  );
}
