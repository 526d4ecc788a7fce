import { offsetHeadLayout } from './offsetHeadLayout.ts';
import './drawings.css';

export interface OffsetHeadDrawingProps {
  leverMm: number;
  headMm: number;
  angleDeg: number;
  unit: 'mm' | 'in';
}

/** The wrench with its offset head from above, to scale in length: where the hand pulls, and how far it is from the fastener. */
export function OffsetHeadDrawing(props: OffsetHeadDrawingProps) {
  const layout = offsetHeadLayout(props);
  const { hand, square, fastener, outline, scale } = layout;
  return (
    <figure className="bw-drawing" aria-label="Offset head from above">
      <div
        className="bw-drawing-frame"
        tabIndex={0}
        role="group"
        aria-label="Offset head, scrolls sideways where narrow"
      >
        <svg
          width={layout.widthPx}
          height={layout.heightPx}
          viewBox={`0 0 ${layout.widthPx} ${layout.heightPx}`}
          role="img"
          aria-label={layout.said}
        >
          <path className="bw-part" d={outline.grip} />
          <path className="bw-part" d={outline.lever} />
          <path className="bw-part" d={outline.wrenchHead} />
          <g transform={`translate(${square.x} ${square.y}) rotate(${-props.angleDeg})`}>
            <path className="bw-touched" d={outline.offsetHead} />
            <path className="bw-part" d={outline.hexagon} />
            <rect className="bw-part" x={-5} y={-5} width={10} height={10} />
          </g>
          <path
            className="bw-centre"
            d={`M${hand.x - 20} ${hand.y}H${square.x + 40}M${hand.x} ${hand.y - 26}V${hand.y + 26}M${square.x} ${square.y - 30}V${square.y + 30}`}
          />
          <path className="bw-centre" d={`M${square.x} ${square.y}L${layout.axisEnd.x} ${layout.axisEnd.y}`} />
          <path className="bw-thin" d={layout.arc} />
          <path className="bw-thin" d={layout.dimensions} />
          {layout.arrows.map(({ x, y, turn }) => (
            <path
              key={`${x} ${y} ${turn}`}
              className="bw-arrow"
              d="M0 0L9 -1.5L9 1.5Z"
              transform={`translate(${x} ${y}) rotate(${turn})`}
            />
          ))}
          <path className="bw-force" d={`M${hand.x} ${hand.y - 78}V${hand.y - 30}`} />
          <path className="bw-arrow" d={`M${hand.x} ${hand.y - 20}l-6 -13h12z`} />
          {layout.texts.map(({ x, y, text, anchor }) => (
            <text key={text} className="bw-drawing-text" x={x} y={y} textAnchor={anchor}>
              {text}
            </text>
          ))}
          <circle className="bw-thin" cx={fastener.x} cy={fastener.y} r="1.5" />
          <path className="bw-scale" d={`M${scale.x} ${scale.y}h${scale.lengthPx}`} />
          <text className="bw-drawing-text" x={scale.x + scale.lengthPx + 8} y={scale.y + 4}>
            {scale.text}
          </text>
        </svg>
      </div>
      <figcaption>
        <b>Offset head, from above</b>
        <span>lever and offset to scale, widths as drawn</span>
        <span className="bw-drawing-end">{props.unit === 'in' ? 'inches (mm)' : 'mm (inches)'}</span>
      </figcaption>
    </figure>
  );
}
