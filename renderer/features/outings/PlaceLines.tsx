import type { PlaceLayout } from './placeLayout.ts';

const styles = 8;

export interface PlaceLinesProps {
  layout: PlaceLayout;
  topPx: number;
  leftPx: number;
  rightPx: number;
  /** Where a problem arises. */
  marked: readonly number[];
}

/** Where things are over the outing: a row for each place, a line for what lies together. */
export function PlaceLines({ layout, topPx, leftPx, rightPx, marked }: PlaceLinesProps) {
  return (
    <g>
      {layout.rows.map(({ key, y, heightPx }, index) => (
        <g key={key}>
          <rect
            className="bw-timeline-row"
            data-even={index % 2 === 0 || undefined}
            x={leftPx}
            y={y}
            width={rightPx - leftPx}
            height={heightPx}
          />
        </g>
      ))}
      {marked.map((x, index) => (
        <path key={index} className="bw-timeline-arises" d={`M${x} ${topPx - 24}V${topPx + layout.heightPx}`} />
      ))}
      {layout.drawn.map(({ line, path, style }) => (
        <path key={line.key} className="bw-timeline-way" data-style={style % styles} data-item={line.id} d={path} />
      ))}
      {layout.drawn.map(({ line, label }) => (
        <text key={line.key} className="bw-timeline-text bw-timeline-halo" x={label.x} y={label.y}>
          {label.text}
        </text>
      ))}
    </g>
  );
}
