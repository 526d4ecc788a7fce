import { useMemo } from 'react';
import { useElementSize } from '@mantine/hooks';
import classes from '../../components/BagMap/BagMap.module.css';
import { MapBag } from '../../components/BagMap/MapBag.tsx';
import { mapOfFrozen } from '../../engine/frozen/index.ts';
import type { Frozen } from '../../engine/frozen/index.ts';
import type { PackedBag } from '../../engine/packing/index.ts';

export interface PackMapProps {
  frozen: Pick<Frozen, 'plan' | 'result' | 'places' | 'linesOf'>;
  bag: PackedBag;
  outing: string;
  /** Code of the line where the hand goes on. */
  next: string | null;
}

const scaleMost = 1.1;

/** The bag laid open to scale: what is packed is drawn, what is still to pack stands there as a double chain line. */
export function PackMap({ frozen, bag, outing, next }: PackMapProps) {
  const { plan } = frozen;
  const { ref, width } = useElementSize<HTMLElement>();
  const layout = useMemo(() => mapOfFrozen(frozen, outing), [frozen, outing]);
  const laid = layout?.bags.find((one) => one.bag.id === bag.id);
  if (layout === null || laid === undefined) return null;
  const pxPerMm = Math.max(layout.pxPerMmLeast * 0.6, Math.min(scaleMost, ((width || 560) - 30) / laid.lengthMm));
  const packing = new Map(
    bag.lines.map(({ line, state }) => [
      line.item,
      line.item === next ? ('next' as const) : state === 'packed' ? ('packed' as const) : ('to-pack' as const),
    ]),
  );
  return (
    <figure ref={ref} className={classes['figure']}>
      <div className="bw-pack-map" role="group" aria-label="Bag map" tabIndex={0}>
        <MapBag
          {...{ plan, bag: laid, pxPerMm, packing }}
          room={layout.room}
          selected={null}
          tabStop={null}
          carried={null}
          carriedBlock={null}
          hands={undefined}
          onPlace={undefined}
        />
      </div>
      <figcaption className={classes['caption']}>
        <b>Bag map</b>
        <span>
          full line: packed · double chain line: still to pack · filled: next. Laid out by the program
          {frozen.places.some((one) => one.outing === outing) ? ', and by hand as it was frozen' : ''}; each is drawn as
          long and wide as its own figures say.
        </span>
      </figcaption>
    </figure>
  );
}
