import { useElementSize } from '@mantine/hooks';
import { useId, useMemo } from 'react';
import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { Balloon } from '../Balloon/Balloon.tsx';
import { stackLayout } from './stackLayout.ts';
import { StackScene } from './StackScene.tsx';
import { stackShape } from './stackShape.ts';
import { stackTexts } from './stackTexts.ts';
import { SwingView } from './SwingView.tsx';
import { ThirdAngle } from './ThirdAngle.tsx';
import classes from './StackDrawing.module.css';

export interface StackDrawingProps {
  plan: ResolvedPlan;
  /** For a stack that holds against turning, the step with the held fastener and its access in their places. */
  step: ResolvedStep;
  /** Ids from the tool to the socket; a closest fit that fails is drawn with its shortfall. */
  stack: string[];
  units: UnitsShown;
}

const leastWidthPx = 640;
const firstWidthPx = 760;

/** A stack in its access hole, to scale, with its parts by number and the same numbers as a table. */
export function StackDrawing({ plan, step, stack, units }: StackDrawingProps) {
  const id = useId();
  const { ref, width } = useElementSize<HTMLDivElement>();
  const drawn = useMemo(() => {
    const shaped = stackShape(plan, step, stack);
    if ('reason' in shaped) return shaped;
    return { shape: shaped.shape, texts: stackTexts(plan, step, stack, shaped.shape, units) };
  }, [plan, step, stack, units]);
  const layout = useMemo(() => {
    if ('reason' in drawn) return null;
    return stackLayout(drawn.shape, drawn.texts, Math.max(leastWidthPx, Math.floor(width || firstWidthPx)));
  }, [drawn, width]);
  if ('reason' in drawn || layout === null) {
    return <p className={classes['none']}>{'reason' in drawn ? drawn.reason : ''}</p>;
  }
  const { shape, texts } = drawn;
  const what = texts.parts.map((part) => `${part.number} ${part.name}`).join(', ');
  const description = [texts.needed, texts.stack, texts.spare, ...texts.hole].join('; ');
  return (
    <figure className={classes['figure']} aria-label={`Stack for step ${step.id}`}>
      <div className={classes['views']}>
        {shape.swing !== null && texts.swing !== null && (
          <SwingView swing={shape.swing} texts={texts.swing} id={`${id}s`} />
        )}
        <div
          className={classes['frame']}
          ref={ref}
          tabIndex={0}
          role="group"
          aria-label="Drawing, scrolls sideways where narrow"
        >
          <StackScene
            layout={layout}
            id={id}
            title={`Stack on its head, to scale: ${what}`}
            description={description}
          />
        </div>
      </div>
      <ol className={classes['parts']}>
        {texts.parts.map((part) => (
          <li key={part.number}>
            <Balloon number={part.number} /> <span className={classes['code']}>{part.id}</span>
            {part.name !== part.id && <span>{part.name}</span>}
          </li>
        ))}
      </ol>
      <figcaption className={classes['caption']}>
        <b>Stack, step {step.id}</b>
        <span>
          to scale: lengths, outside diameters, squares, openings, depth
          {shape.clearMm === null ? '' : ', clear diameter'}. Outlines of tool, head and host are schematic
          {layout.toolBroken ? '; the lever is broken off' : ''}
          {shape.clearMm === null && shape.depthMm > 0 ? '; the hole’s width is not known' : ''}
          {shape.depthMm === 0 ? '; no depth given: the head stands free' : ''}
          {shape.swing === null ? '' : '; end view at its own scale'}
        </span>
        <ThirdAngle />
      </figcaption>
      <details className={classes['details']}>
        <summary>As table</summary>
        <table className={classes['table']}>
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">Value</th>
              <th scope="col">Against it</th>
            </tr>
          </thead>
          <tbody>
            {texts.rows.map((row, index) => (
              <tr key={index}>
                <th scope="row">{row.what}</th>
                <td>{row.value}</td>
                <td>{row.note}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </figure>
  );
}
