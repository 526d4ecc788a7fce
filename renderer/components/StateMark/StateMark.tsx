import { marks, type Mark, type MarkState } from './marks.tsx';
import classes from './StateMark.module.css';

export type { MarkState } from './marks.tsx';

export interface StateMarkProps {
  state: MarkState;
  /** Said in place of the state's own word where more is known: "Saved 10:42", "Not proved (bound 4 %)". */
  text?: string | undefined;
  /** Height of the shape in px: 16 in rows, 44 in the gloved sheets. */
  size?: number | undefined;
}

/** A state as a shape of its own, always with its word. */
export function StateMark({ state, text, size = 16 }: StateMarkProps) {
  const { word, tone, width, shape }: Mark = marks[state];
  return (
    <span className={classes['mark']} data-tone={tone} data-state={state}>
      <svg
        className={classes['shape']}
        viewBox={`0 0 ${width} 16`}
        width={(width * size) / 16}
        height={size}
        aria-hidden="true"
        focusable="false"
      >
        {shape}
      </svg>
      <span>{text ?? word}</span>
    </span>
  );
}
