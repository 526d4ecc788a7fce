/** A part's number in a circle, as in the drawing. The fonts have no ringed digits, so it is drawn. */
export function Balloon({ number }: { number: number }) {
  return (
    <svg
      width="18"
      height="18"
      viewBox="0 0 18 18"
      role="img"
      aria-label={`part ${number}`}
      style={{ verticalAlign: '-4px' }}
    >
      <circle cx="9" cy="9" r="8" fill="none" stroke="currentColor" strokeWidth="1.2" />
      <text x="9" y="13" textAnchor="middle" fontSize="12" fontWeight="650" fill="currentColor">
        {number}
      </text>
    </svg>
  );
}
