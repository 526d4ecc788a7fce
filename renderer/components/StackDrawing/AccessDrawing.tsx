import { useId, useMemo } from 'react';
import type { CSSProperties } from 'react';
import { useElementSize } from '@mantine/hooks';
import type { Interface } from '../../../shared-types/records/site.ts';
import { RefusedError } from '../../engine/errors.ts';
import { quantityIn } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { accessLayout, endView, endViewPx } from './accessLayout.ts';
import type { AccessShape, AccessTexts } from './accessLayout.ts';
import { DrawnDimension, DrawnOutline, DrawnText, Hatchings } from './Drawn.tsx';
import { shownLengths, writtenUnit } from './shownLength.ts';
import { ThirdAngle } from './ThirdAngle.tsx';
import classes from './StackDrawing.module.css';

export interface AccessDrawingProps {
  /** What the hole belongs to: "Interface B". */
  name: string;
  access: NonNullable<Interface['access']>;
  fastener: AccessShape['fastener'];
  units: UnitsShown;
}

const roomRow = 'Room for the handle, radius';
const leastWidthPx = 420;
const firstWidthPx = 640;

function read({ access, fastener, units }: Omit<AccessDrawingProps, 'name'>): {
  shape: AccessShape;
  texts: AccessTexts;
  rows: [string, string][];
} {
  const mm = (text: string | undefined): number | null =>
    text === undefined ? null : quantityIn(text, 'length', 'mm');
  const { unit, typed } = shownLengths(writtenUnit([access.depth]), units);
  const said = (text: string | undefined): string | null => (text === undefined ? null : typed(text));
  const shape: AccessShape = {
    depthMm: mm(access.depth) ?? 0,
    clearMm: mm(access.clearDiameter),
    profile: (access.profile ?? []).map(({ to, clearDiameter }) => ({
      toMm: quantityIn(to, 'length', 'mm'),
      clearMm: quantityIn(clearDiameter, 'length', 'mm'),
    })),
    protrusionMm: mm(access.protrusion),
    roomMm: mm(access.handleRadius),
    swingDeg: access.swingDeg ?? null,
    fastener,
  };
  const texts: AccessTexts = {
    depth: typed(access.depth),
    clear: said(access.clearDiameter),
    profile: (access.profile ?? []).map(({ to, clearDiameter }) => ({ to: typed(to), clear: typed(clearDiameter) })),
    protrusion: said(access.protrusion),
    unit,
  };
  const rows: [string, string | null][] = [
    ['Depth to the head', texts.depth],
    ...texts.profile.map(({ to, clear }): [string, string] => [`Clear diameter to ${to}`, clear]),
    [texts.profile.length === 0 ? 'Clear diameter' : 'Clear diameter from there on', texts.clear],
    ['Free swing', access.swingDeg === undefined ? null : `${access.swingDeg}°`],
    [roomRow, said(access.handleRadius)],
    ['Thread proud of the nut', texts.protrusion],
  ];
  return { shape, texts, rows: rows.map(([what, value]) => [what, value ?? 'not said']) };
}

/** The access of a head: the hole in section, and from its mouth the room for a handle; the same figures as a table. */
export function AccessDrawing({ name, access, fastener, units }: AccessDrawingProps) {
  const id = useId();
  const { ref, width } = useElementSize<HTMLDivElement>();
  const drawn = useMemo(() => {
    try {
      return read({ access, fastener, units });
    } catch (error) {
      if (error instanceof RefusedError) return error.message;
      throw error;
    }
  }, [access, fastener, units]);
  if (typeof drawn === 'string') return <p className={classes['none']}>Not drawn: {drawn}</p>;
  const { shape, texts, rows } = drawn;
  const layout = accessLayout(shape, texts, Math.max(leastWidthPx, Math.floor(width || firstWidthPx)));
  const hasEnd = shape.roomMm !== null || shape.swingDeg !== null;
  const spoken = rows.map(([what, value]) => `${what}: ${value}`).join('; ');
  const half = layout.scale.lengthPx / 2;
  return (
    <figure className={classes['figure']} aria-label={`Access of ${name}`}>
      <div className={classes['views']}>
        {!hasEnd ? null : (
          <div className={classes['swing']}>
            <svg
              className={classes['drawing']}
              width={endViewPx}
              height={endViewPx}
              viewBox={`0 0 ${endViewPx} ${endViewPx}`}
              role="img"
              aria-labelledby={`${id}-end`}
              style={{ '--wide': '2px' } as CSSProperties}
            >
              <title id={`${id}-end`}>{`${name} from the mouth of the hole`}</title>
              {endView(shape).map((outline, index) => (
                <DrawnOutline key={index} outline={outline} prefix={id} />
              ))}
            </svg>
            <p className={classes['swingText']}>
              {shape.swingDeg === null ? null : <span>{shape.swingDeg}° of free swing</span>}
              {shape.roomMm === null ? null : (
                <span>room for the handle: {rows.find(([what]) => what === roomRow)?.[1]}</span>
              )}
            </p>
          </div>
        )}
        <div
          className={`${classes['frame']} ${classes['frameNarrow']}`}
          ref={ref}
          tabIndex={0}
          role="group"
          aria-label="Drawing, scrolls sideways where narrow"
        >
          <svg
            className={classes['drawing']}
            width={layout.widthPx}
            height={layout.heightPx}
            viewBox={`0 0 ${layout.widthPx} ${layout.heightPx}`}
            role="img"
            aria-labelledby={`${id}-title ${id}-desc`}
            style={{ '--wide': '2px' } as CSSProperties}
          >
            <title id={`${id}-title`}>{`Access of ${name} in section, to scale`}</title>
            <desc id={`${id}-desc`}>{spoken}</desc>
            <Hatchings prefix={id} />
            {layout.outlines.map((outline, index) => (
              <DrawnOutline key={index} outline={outline} prefix={id} />
            ))}
            {layout.witness.map((d, index) => (
              <path key={index} className={classes['thin']} d={d} />
            ))}
            {layout.acrossHole === null ? null : (
              <g>
                <path
                  className={classes['thin']}
                  d={`M${layout.acrossHole.x} ${layout.acrossHole.top}V${layout.acrossHole.bottom}`}
                />
                <path className={classes['arrow']} d={`M${layout.acrossHole.x} ${layout.acrossHole.top}l-1.5 9h3z`} />
                <path
                  className={classes['arrow']}
                  d={`M${layout.acrossHole.x} ${layout.acrossHole.bottom}l-1.5 -9h3z`}
                />
              </g>
            )}
            {layout.dimensions.map((dimension, index) => (
              <DrawnDimension key={index} dimension={dimension} />
            ))}
            {layout.notes.map((note, index) => (
              <DrawnText key={index} text={note} />
            ))}
            <g>
              <rect
                className={classes['scaleDark']}
                x={layout.scale.x}
                y={layout.scale.y - 5}
                width={half}
                height={5}
              />
              <rect
                className={classes['scaleLight']}
                x={layout.scale.x + half}
                y={layout.scale.y - 5}
                width={half}
                height={5}
              />
              <text className={classes['label']} x={layout.scale.x + layout.scale.lengthPx + 8} y={layout.scale.y}>
                0 to {layout.scale.text}
              </text>
            </g>
          </svg>
        </div>
      </div>
      <figcaption className={classes['caption']}>
        <b>Access of {name}</b>
        <span>
          to scale: depth{shape.clearMm === null ? '' : ', clear diameter'}
          {fastener === null ? '' : ', width across flats'}. Host{fastener === null ? '' : ', head height'} and joint
          are schematic
          {shape.clearMm === null && shape.depthMm > 0 ? '; the hole’s width is not known' : ''}
          {shape.depthMm === 0 ? '; the head stands free' : ''}
          {hasEnd ? '; end view at its own scale' : ''}
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
            </tr>
          </thead>
          <tbody>
            {rows.map(([what, value]) => (
              <tr key={what}>
                <th scope="row">{what}</th>
                <td>{value}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </figure>
  );
}
