import { useRef } from 'react';
import type { ReactNode } from 'react';
import { useElementSize, useMergedRef } from '@mantine/hooks';
import type { FileToSave } from '../../../shared-types/host.ts';
import { pngOf, svgOf } from './exportPlot.ts';
import classes from './Plot.module.css';

export interface PlotTable {
  heads: string[];
  rows: string[][];
}

/** What every plot is told beside its data. */
export interface PlotAbout {
  /** "Preload against torque" */
  title: string;
  /** Document, table and how it was obtained; the formula. */
  source: string;
  /** What is taken for granted; none is said where there is none. */
  assumed: string[];
  /** Hands a file to the person; without it the plot cannot be saved. */
  onSave?: ((file: FileToSave) => Promise<unknown>) | undefined;
  onRefused?: ((error: unknown) => void) | undefined;
}

export interface PlotFigureProps extends PlotAbout {
  table: PlotTable;
  /** What each kind of line or point means. */
  samples?: ReactNode;
  /** The same in words, for the file, which has no samples beside it. */
  legend?: string;
  leastWidthPx?: number;
  /** The drawing at a width. */
  children: (widthPx: number) => ReactNode;
}

const firstWidthPx = 640;

/** A plot in its frame: what it is, source and assumptions under it, its data as a table, and as a file. */
export function PlotFigure(props: PlotFigureProps) {
  const { title, source, assumed, onSave, onRefused, table, samples, legend, leastWidthPx = 300, children } = props;
  const { ref: sized, width } = useElementSize<HTMLDivElement>();
  const own = useRef<HTMLDivElement>(null);
  const ref = useMergedRef(sized, own);
  const save = async (format: 'svg' | 'png'): Promise<void> => {
    const drawing = own.current?.querySelector('svg');
    if (onSave === undefined || drawing === null || drawing === undefined) return;
    const name = `${title.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-')}.${format}`;
    const under = [
      ...(legend === undefined ? [] : [legend]),
      source,
      ...(assumed.length === 0 ? [] : [`Assumed: ${assumed.join(' ')}`]),
    ];
    try {
      if (format === 'svg') {
        const bytes = new TextEncoder().encode(await svgOf(drawing, { title, under }));
        await onSave({ name, mediaType: 'image/svg+xml', bytes });
      } else await onSave({ name, mediaType: 'image/png', bytes: await pngOf(drawing, { title, under }) });
    } catch (error) {
      if (onRefused === undefined) throw error;
      onRefused(error);
    }
  };
  return (
    <figure className={classes['figure']} aria-label={title}>
      <div
        ref={ref}
        className={classes['frame']}
        tabIndex={0}
        role="group"
        aria-label={`${title}, scrolls sideways where narrow`}
      >
        {children(Math.max(leastWidthPx, Math.floor(width || firstWidthPx)))}
      </div>
      <figcaption className={classes['caption']}>
        <b>{title}</b>
        {samples}
        {onSave === undefined ? null : (
          <span className={classes['deeds']}>
            <button type="button" className="bw-link" onClick={() => void save('svg')}>
              Save as SVG…
            </button>
            <button type="button" className="bw-link" onClick={() => void save('png')}>
              Save as PNG…
            </button>
          </span>
        )}
      </figcaption>
      <p className={classes['under']}>
        {source}
        {assumed.length === 0 ? null : ` Assumed: ${assumed.join(' ')}`}
      </p>
      <details className={classes['details']}>
        <summary>As table</summary>
        <div className={classes['scroll']} tabIndex={0} role="group" aria-label={`${title} as table`}>
          <table className={classes['table']}>
            <caption className="bw-hidden">{title}</caption>
            <thead>
              <tr>
                {table.heads.map((head) => (
                  <th key={head} scope="col">
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {table.rows.map((row, index) => (
                <tr key={index}>
                  {row.map((cell, column) => (
                    <td key={column}>{cell}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </details>
    </figure>
  );
}

/** A piece of a line or a point with its words. */
export function Sample({ words, children }: { words: string; children: ReactNode }) {
  return (
    <span className={classes['sample']}>
      <svg width="32" height="12" aria-hidden="true">
        {children}
      </svg>
      {words}
    </span>
  );
}
