import { useElementSize } from '@mantine/hooks';
import type { BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { scaleBar } from '../StackDrawing/scaleBar.ts';
import { BagField } from './BagField.tsx';
import { bagFills } from './bagFill.ts';
import { bagLayout } from './bagLayout.ts';
import { FillBars } from './FillBars.tsx';
import classes from './BagDrawing.module.css';

export interface BagDrawingProps {
  plan: ResolvedPlan;
  outing: BagOuting;
  /** Id of the item under the hand. */
  selected?: string | null | undefined;
  onSelect?: ((id: string, bag: string) => void) | undefined;
  units: UnitsShown;
}

const firstWidthPx = 760;
const twoAbreastPx = 620;
const betweenPx = 16;
const leastPx = 240;

/** What lies in which bag: every piece at one scale, the bags' own limits beneath. An arrangement, not a packing proof. */
export function BagDrawing({ plan, outing, selected = null, onSelect, units }: BagDrawingProps) {
  const { ref, width } = useElementSize<HTMLDivElement>();
  const whole = Math.max(leastPx, Math.floor(width || firstWidthPx));
  const holding = new Set(outing.items.map(({ bag }) => bag)).size;
  const bagWidth = holding > 1 && whole >= twoAbreastPx ? Math.floor((whole - betweenPx) / 2) : whole;
  const layout = bagLayout(plan, outing, bagWidth);
  const scale = scaleBar({ pxPerMm: layout.pxPerMm, unit: units === 'inch-pound' ? 'in' : 'mm', x: 1, y: 10 });
  const sizeless = layout.bags.flatMap(({ items }) => items).filter(({ silhouette }) => silhouette.toScale === 'none');
  return (
    <figure className={classes['figure']} aria-label={`Bags of ${outing.id}`}>
      <div className={classes['bags']} ref={ref}>
        {layout.bags.length === 0 ? <p>No piece is taken on this outing.</p> : null}
        {layout.bags.map((field) => (
          <section key={field.bag.id} style={{ width: `${bagWidth}px` }} aria-label={field.bag.name}>
            <h4 className={classes['name']}>
              {field.bag.name}
              {field.bag.name === field.bag.id ? null : <span className={classes['code']}>{field.bag.id}</span>}
            </h4>
            <BagField
              field={field}
              widthPx={bagWidth}
              pxPerMm={layout.pxPerMm}
              selected={selected}
              onSelect={onSelect}
            />
            <FillBars fills={bagFills(plan, field.bag, outing, units)} bag={field.bag.name} />
          </section>
        ))}
      </div>
      <figcaption className={classes['caption']}>
        <b>What lies in which bag</b>
        <span>
          Lengths and diameters of pieces to scale where the plan gives them; their outlines and the bags’ are
          schematic. An arrangement for finding things, not a proof that they lie so in the bag.
          {sizeless.length === 0
            ? ''
            : ` Size not given, drawn at a guess: ${sizeless.map(({ id }) => id).join(', ')}.`}
        </span>
        <svg width={scale.lengthPx + 70} height="14" aria-label={`Scale: bar of ${scale.text}`} role="img">
          <rect className={classes['barFull']} x={1} y={5} width={scale.lengthPx} height={4} />
          <text className={classes['label']} x={scale.lengthPx + 8} y={11}>
            {scale.text}
          </text>
        </svg>
      </figcaption>
      <details className={classes['details']}>
        <summary>As table</summary>
        <table className={classes['table']}>
          <thead>
            <tr>
              <th scope="col">Bag</th>
              <th scope="col">Item</th>
              <th scope="col">What</th>
              <th scope="col">Pieces</th>
            </tr>
          </thead>
          <tbody>
            {layout.bags.flatMap(({ bag, items }) =>
              items.map((item) => (
                <tr key={`${bag.id} ${item.id}`}>
                  <td>{bag.name}</td>
                  <th scope="row" className={classes['code']}>
                    {item.id}
                  </th>
                  <td>{item.name}</td>
                  <td>{item.quantity}</td>
                </tr>
              )),
            )}
          </tbody>
        </table>
      </details>
    </figure>
  );
}
