import { useId, useMemo, useState } from 'react';
import { useElementSize } from '@mantine/hooks';
import type { BagOuting } from '../../../shared-types/bag.ts';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import { FillBars } from '../../components/BagMap/FillBars.tsx';
import { bagFills } from '../../components/BagMap/bagFill.ts';
import classes from '../../components/BagMap/BagMap.module.css';
import { MapBag } from '../../components/BagMap/MapBag.tsx';
import { scaleBar } from '../../components/StackDrawing/scaleBar.ts';
import { arrangedOuting } from '../../engine/bagMap/arrangedOuting.ts';
import { mapLayout } from '../../engine/bagMap/mapLayout.ts';
import type { MapLayout } from '../../engine/bagMap/mapLayout.ts';
import type { Standing } from '../../engine/bagMap/standing.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { findBlock, withLines, withoutPart } from './carrying.ts';
import { MapCaption } from './MapCaption.tsx';
import { MapTable } from './MapTable.tsx';
import { MapTools } from './MapTools.tsx';
import { fallenText, howToMove } from './mapWords.ts';
import { useCarrying } from './useCarrying.ts';
import { useMapAsked } from './useMapAsked.ts';

export interface BagMapSectionProps {
  plan: ResolvedPlan;
  /** The outing as the planner gave it. */
  planned: BagOuting;
  /** What the answer stands, wherever its lines lie. */
  standing: Standing;
  /** Lines of it laid by hand. */
  lines: readonly LaidLine[];
  /** The line in hand. */
  selected: { item: string; bag: string } | null;
  units: UnitsShown;
  onSelect: (item: string, bag: string) => void;
  /** Absent where nothing may be moved. */
  onLines?: ((lines: readonly LaidLine[], title: string) => void) | undefined;
}

const firstWidthPx = 760;
const leastPx = 240;
const betweenPx = 20;
const scaleMost = 1.2;
/** What the limits beneath a bag need. */
const underPx = 330;

/** Room for all the bags side by side, or each below the other; one scale for all of them. */
function scaleIn(layout: MapLayout, widthPx: number): number {
  const lengths = layout.bags.map(({ lengthMm }) => lengthMm);
  const beside = (widthPx - betweenPx * lengths.length) / lengths.reduce((sum, mm) => sum + mm, 0);
  const below = (widthPx - 12) / Math.max(...lengths);
  const fitting = lengths.length > 1 && beside >= layout.pxPerMmLeast ? beside : below;
  return Math.max(layout.pxPerMmLeast, Math.min(fitting, scaleMost));
}

/** Which item lies where in each bag, to scale; taken up and laid elsewhere by pointer or by keys. */
export function BagMapSection(props: BagMapSectionProps) {
  const { plan, planned, standing, lines, selected, units, onSelect, onLines } = props;
  const hintId = useId();
  const { ref, width } = useElementSize<HTMLDivElement>();
  const arranged = useMemo(() => arrangedOuting(plan, planned, lines, standing), [plan, planned, lines, standing]);
  const layout = useMemo(() => mapLayout(plan, planned, arranged.laid), [plan, planned, arranged]);
  const pxPerMm = scaleIn(layout, Math.max(leastPx, Math.floor(width || firstWidthPx)));
  const answer = arranged.outing;
  // Of several blocks of the line in hand, the one that was pressed.
  const [pressed, setPressed] = useState<string | null>(null);
  const own =
    layout.bags
      .find(({ bag }) => bag.id === selected?.bag)
      ?.blocks.flatMap(({ block }) => (block.item === selected?.item ? [block.key] : [])) ?? [];
  const inHand = own.find((key) => key === pressed) ?? own[0] ?? null;
  const first = layout.bags.flatMap(({ blocks }) => blocks)[0]?.block.key ?? null;
  const carrying = useCarrying({
    ...{ plan, answer, layout, standing, pxPerMm, units },
    onSelect: (item, bag, key) => {
      setPressed(key);
      onSelect(item, bag);
    },
    onLay: (more, title) => onLines?.(withLines(arranged.laid, more), title),
    onTogether: (block, title) => onLines?.(withoutPart(arranged.laid, block), title),
  });
  const { carried, said } = carrying;
  const reset = (): void => onLines?.([], `Lay out the bags of outing ${planned.id} by themselves`);
  useMapAsked({ layout, carrying, inHand: carried?.key ?? inHand, reset, ready: onLines !== undefined });
  const fallen = fallenText(plan, { ...arranged, fallen: layout.fallen });
  const unit = units === 'inch-pound' ? 'in' : 'mm';
  const scale = scaleBar({ pxPerMm, unit, x: 1, y: 10 });
  const hands =
    onLines === undefined
      ? undefined
      : { onPointerDown: carrying.onPointerDown, onKeyDown: carrying.onKeyDown, describedBy: hintId };
  return (
    <figure className={classes['figure']} aria-label={`Bag map of outing ${planned.id}`}>
      <div className={classes['bags']} ref={ref}>
        {layout.bags.length === 0 ? <p>No piece is taken on this outing.</p> : null}
        {layout.bags.map((bag) => (
          <section
            key={bag.bag.id}
            className={classes['one']}
            style={{ width: `${Math.max(underPx, Math.ceil(bag.lengthMm * pxPerMm) + 12)}px` }}
            aria-label={bag.bag.name}
          >
            <h4 className={classes['name']}>
              {bag.bag.name}
              {bag.bag.name === bag.bag.id ? null : <span className={classes['code']}>{bag.bag.id}</span>}
            </h4>
            <div className={classes['scroll']}>
              <MapBag
                {...{ plan, bag, pxPerMm, carried, hands }}
                room={layout.room}
                selected={inHand}
                tabStop={inHand ?? first}
                carriedBlock={carried === null ? null : (findBlock(layout, carried.key)?.laid ?? null)}
                onPlace={onLines === undefined ? undefined : carrying.onPlace}
              />
            </div>
            <FillBars fills={bagFills(plan, bag.bag, answer, units)} bag={bag.bag.name} />
          </section>
        ))}
      </div>
      {onLines === undefined || layout.bags.length === 0 ? null : (
        <>
          <p id={hintId} className={classes['hint']}>
            {howToMove}
          </p>
          <MapTools
            {...{ plan, layout, carrying }}
            inHand={carried?.key ?? inHand}
            byHand={lines.length > 0}
            onReset={reset}
          />
          <p className={classes['said']} role="status" data-refused={said.refused || undefined}>
            {said.text === '' ? (fallen ?? '') : said.text}
          </p>
        </>
      )}
      <MapCaption layout={layout} units={units} scale={scale} />
      <details className={classes['details']}>
        <summary>As table</summary>
        <MapTable plan={plan} layout={layout} units={units} />
      </details>
    </figure>
  );
}
