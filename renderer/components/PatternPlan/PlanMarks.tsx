import { useRef, useState } from 'react';
import type { KeyboardEvent, PointerEvent } from 'react';
import { placeAt } from './patternPlanLayout.ts';
import type { PlanLayout, PlanSpot } from './patternPlanLayout.ts';
import classes from './PatternPlan.module.css';

/** What can be done to places; where they lie is said as seen from the side of the heads. */
export interface PlaceDeeds {
  /** To a place, in whole mm. */
  onMove: (position: string, to: { xMm: number; yMm: number }) => void;
  /** By so much from where it lies. */
  onShift: (position: string, by: { xMm: number; yMm: number }) => void;
  onAdd: (at: { xMm: number; yMm: number }) => void;
  onRemove: (position: string) => void;
}

interface PlanMarksProps {
  layout: PlanLayout;
  order: readonly string[];
  mirrored: boolean;
  deeds: PlaceDeeds | null;
}

interface Drag {
  position: string;
  /** Kept as it was when the place was taken up: it must not change its scale under the hand. */
  layout: PlanLayout;
  px: number;
  py: number;
}

const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** The positions with their numbers, and the way from one to the next. Where they can be moved, one of them is a Tab stop. */
export function PlanMarks({ layout: now, order, mirrored, deeds }: PlanMarksProps) {
  const root = useRef<SVGGElement>(null);
  const [stop, setStop] = useState<string | null>(null);
  const [drag, setDrag] = useState<Drag | null>(null);
  const layout = drag?.layout ?? now;
  const spots = layout.spots.map((spot) =>
    spot.position === drag?.position ? { ...spot, px: drag.px, py: drag.py } : spot,
  );
  const byName = new Map(spots.map((spot) => [spot.position, spot]));
  const way = order.flatMap((position) => byName.get(position) ?? []);
  const path = way.map(({ px, py }, at) => `${at === 0 ? 'M' : 'L'}${Math.round(px)} ${Math.round(py)}`).join('');
  const tabStop = spots.find(({ position }) => position === stop) ?? spots[0];
  const heads = ({ xMm, yMm }: { xMm: number; yMm: number }) => ({ xMm: mirrored ? 0 - xMm : xMm, yMm });

  const pointOf = (event: Pick<PointerEvent, 'clientX' | 'clientY'>): { x: number; y: number } => {
    const box = root.current?.ownerSVGElement?.getBoundingClientRect();
    return { x: event.clientX - (box?.left ?? 0), y: event.clientY - (box?.top ?? 0) };
  };
  const focus = (position: string): void => {
    setStop(position);
    // After the mark is there, or where it now lies.
    setTimeout(() => root.current?.querySelector<SVGGElement>(`[data-position="${CSS.escape(position)}"]`)?.focus());
  };
  const onKeyDown = (event: KeyboardEvent, spot: PlanSpot): void => {
    if (deeds === null) return;
    const arrow = arrows[event.key];
    if (arrow !== undefined && event.altKey) {
      const by = event.shiftKey ? 10 : 1;
      deeds.onShift(spot.position, heads({ xMm: arrow[0] * by, yMm: arrow[1] * by }));
      focus(spot.position);
    } else if (arrow !== undefined) {
      const at = spots.findIndex(({ position }) => position === spot.position) + (arrow[0] + -arrow[1]);
      const next = spots[(at + spots.length) % spots.length];
      if (next !== undefined) focus(next.position);
    } else if (event.key === 'Delete') {
      const at = spots.findIndex(({ position }) => position === spot.position);
      const near = spots[at + 1] ?? spots[at - 1];
      deeds.onRemove(spot.position);
      if (near !== undefined) focus(near.position);
    } else if (event.key === '+') {
      deeds.onAdd(heads(placeAt(layout, { x: spot.px + 2 * layout.markPx + 4, y: spot.py })));
    } else return;
    event.preventDefault();
  };
  const onUp = (): void => {
    if (drag === null || deeds === null) return;
    setDrag(null);
    deeds.onMove(drag.position, heads(placeAt(drag.layout, { x: drag.px, y: drag.py })));
    focus(drag.position);
  };

  return (
    <g ref={root}>
      {deeds === null ? null : (
        <rect
          className={classes['field']}
          data-field=""
          width={layout.widthPx}
          height={layout.heightPx - 40}
          onClick={(event) => deeds.onAdd(heads(placeAt(layout, pointOf(event))))}
        />
      )}
      {path === '' ? null : <path className={classes['path']} d={path} aria-hidden="true" />}
      {spots.map((spot) => {
        const said = `Position ${spot.position}${spot.turn === null ? '' : `, ${spot.turn} in the order`}`;
        const shape = <Mark spot={spot} markPx={layout.markPx} />;
        if (deeds === null)
          return (
            <g key={spot.position} role="img" aria-label={said} data-position={spot.position}>
              {shape}
            </g>
          );
        return (
          <g
            key={spot.position}
            role="button"
            aria-label={said}
            data-position={spot.position}
            className={classes['handle']}
            tabIndex={spot.position === tabStop?.position ? 0 : -1}
            onFocus={() => setStop(spot.position)}
            onKeyDown={(event) => onKeyDown(event, spot)}
            onPointerDown={(event) => {
              event.stopPropagation();
              event.currentTarget.setPointerCapture(event.pointerId);
              setDrag({ position: spot.position, layout: now, px: spot.px, py: spot.py });
            }}
            onPointerMove={(event) => {
              const { x, y } = pointOf(event);
              setDrag((held) => (held === null ? null : { ...held, px: x, py: y }));
            }}
            onPointerUp={onUp}
            onPointerCancel={() => setDrag(null)}
          >
            {shape}
          </g>
        );
      })}
    </g>
  );
}

function Mark({ spot, markPx }: { spot: PlanSpot; markPx: number }) {
  const { position, px, py, turn } = spot;
  const name = position.length > 4 ? `${position.slice(0, 3)}…` : position;
  const [boxX, boxY] = [px + markPx * 0.75 + 1, py - markPx * 0.75 - 15];
  const boxWide = turn !== null && turn > 99 ? 28 : turn !== null && turn > 9 ? 21 : 15;
  return (
    <>
      <circle className={classes['mark']} cx={px} cy={py} r={markPx} />
      <text className={classes['name']} x={px} y={py + 4} textAnchor="middle">
        {name}
      </text>
      {turn === null ? null : (
        <>
          <rect className={classes['box']} x={boxX} y={boxY} width={boxWide} height={15} />
          <text className={classes['turn']} x={boxX + boxWide / 2} y={boxY + 12} textAnchor="middle">
            {turn}
          </text>
        </>
      )}
    </>
  );
}
