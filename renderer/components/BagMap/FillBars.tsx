import type { Fill } from './bagFill.ts';
import classes from './BagMap.module.css';

/** How full a bag is in each thing it is limited in; the bar is full at the limit's line. */
export function FillBars({ fills, bag }: { fills: Fill[]; bag: string }) {
  return (
    <dl className={classes['fills']} aria-label={`How full ${bag} is`}>
      {fills.map(({ name, text, share }) => (
        <div key={name} className={classes['fill']}>
          <dt>{name}</dt>
          <dd>
            {share === null ? null : (
              <svg className={classes['bar']} width="58" height="14" viewBox="0 0 58 14" aria-hidden="true">
                <path className={classes['barRoom']} d="M0 11.5H46" />
                <rect
                  className={share > 1 ? classes['barOver'] : classes['barFull']}
                  x="0"
                  y="3"
                  width={Math.min(share, 1.2) * 46}
                  height="8"
                />
                <path className={classes['barLimit']} d="M46 0V14" />
              </svg>
            )}
            <span>
              {text}
              {share !== null && share > 1 ? ', over the limit' : ''}
            </span>
          </dd>
        </div>
      ))}
    </dl>
  );
}
