import classes from './StackDrawing.module.css';

/** ISO 5456 symbol: the view from the left stands on the left. */
export function ThirdAngle() {
  return (
    <svg
      className={classes['symbol']}
      width="42"
      height="16"
      viewBox="0 0 42 16"
      role="img"
      aria-label="third angle projection"
    >
      <circle cx="9" cy="8" r="5.6" />
      <circle cx="9" cy="8" r="2.6" />
      <path d="M1 8H17M9 .6V15.4M22 4.8V11.2L36 13.8V2.2ZM19.5 8H39" />
    </svg>
  );
}
