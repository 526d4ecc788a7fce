import { showNumber } from '../../engine/units/index.ts';
import './drawings.css';

export interface HexagonsDrawingProps {
  headMm: number;
  openingMm: number;
  freeAngleDeg: number | null;
  words: string;
}

const sizePx = 220;
const flatsPx = 128;

/** A hexagon by its width across flats, turned by an angle. */
function hexagon(flats: number, turnDeg: number): string {
  const radius = flats / Math.sqrt(3);
  return `${Array.from({ length: 6 }, (_, index) => {
    const angle = ((30 + 60 * index + turnDeg) * Math.PI) / 180;
    const [x, y] = [sizePx / 2 + radius * Math.cos(angle), sizePx / 2 + radius * Math.sin(angle)];
    return `${index === 0 ? 'M' : 'L'}${Math.round(x * 100) / 100} ${Math.round(y * 100) / 100}`;
  }).join('')}Z`;
}

/** Opening about head, to scale, turned as far as it turns free: where flats and corners meet is to be seen. */
export function HexagonsDrawing({ headMm, openingMm, freeAngleDeg, words }: HexagonsDrawingProps) {
  const pxPerMm = flatsPx / headMm;
  const turned = freeAngleDeg ?? 0;
  const said = `Opening of ${showNumber(openingMm, 5)} mm on a head of ${showNumber(headMm, 5)} mm across flats${
    freeAngleDeg === null ? '' : `, turned free by ${showNumber(freeAngleDeg, 3)}°`
  }.`;
  return (
    <figure className="bw-drawing" aria-label="Opening on the head">
      <div className="bw-drawing-frame">
        <svg width={sizePx} height={sizePx} viewBox={`0 0 ${sizePx} ${sizePx}`} role="img" aria-label={said}>
          <circle className="bw-part" cx={sizePx / 2} cy={sizePx / 2} r={98} />
          <path className="bw-hole" d={hexagon(openingMm * pxPerMm, turned)} />
          <path className="bw-touched" d={hexagon(flatsPx, 0)} />
          <path className="bw-centre" d={`M4 ${sizePx / 2}H${sizePx - 4}M${sizePx / 2} 4V${sizePx - 4}`} />
        </svg>
      </div>
      <figcaption>
        <b>Opening on the head</b>
        <span>
          to scale, {words}
          {freeAngleDeg === null ? '' : `, turned free by ${showNumber(freeAngleDeg, 3)}°`}
        </span>
      </figcaption>
    </figure>
  );
}
