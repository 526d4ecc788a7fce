import type { CSSProperties } from 'react';
import { DrawnOutline, Hatchings } from './Drawn.tsx';
import type { SwingShape } from './stackShape.ts';
import type { SwingTexts } from './stackTexts.ts';
import { swingLayout } from './swingLayout.ts';
import classes from './StackDrawing.module.css';

export interface SwingViewProps {
  swing: SwingShape;
  texts: SwingTexts;
  id: string;
}

/** View from the tool's end, at a scale of its own. */
export function SwingView({ swing, texts, id }: SwingViewProps) {
  const layout = swingLayout(swing);
  const spoken = [texts.swing === null ? null : `Swing ${texts.swing}.`, `Lever ${texts.lever}.`, texts.room].filter(
    Boolean,
  );
  return (
    <div className={classes['swing']}>
      <svg
        className={classes['drawing']}
        width={layout.sizePx}
        height={layout.sizePx}
        viewBox={`0 0 ${layout.sizePx} ${layout.sizePx}`}
        role="img"
        aria-labelledby={`${id}-title`}
        style={{ '--wide': '2px' } as CSSProperties}
      >
        <title id={`${id}-title`}>{`Tool from its end. ${spoken.join(' ')}`}</title>
        <Hatchings prefix={id} />
        {layout.outlines.map((outline, index) => (
          <DrawnOutline key={index} outline={outline} prefix={id} />
        ))}
      </svg>
      <p className={texts.fails ? classes['swingFails'] : classes['swingText']}>
        {texts.swing !== null && <span>{texts.swing}</span>}
        <span>lever {texts.lever}</span>
        {texts.room !== null && <span>{texts.room}</span>}
      </p>
    </div>
  );
}
