import classes from './StackDrawing.module.css';

/** A part's number as the drawing shows it, for running text: the bundled faces have no circled figures. */
export function Balloon({ number }: { number: number }) {
  return (
    <svg
      className={classes['inline']}
      width="20"
      height="20"
      viewBox="0 0 20 20"
      role="img"
      aria-label={`part ${number}`}
    >
      <circle className={classes['balloon']} cx="10" cy="10" r="9" />
      <text className={`${classes['label']} ${classes['strong']}`} x="10" y="14.4" textAnchor="middle">
        {number}
      </text>
    </svg>
  );
}
