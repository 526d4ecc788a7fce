import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { rowText } from './courseWords.ts';
import type { PlaceLayout } from './placeLayout.ts';

const styles = 8;

export interface PlaceLinesProps {
  layout: PlaceLayout;
  plan: ResolvedPlan;
  topPx: number;
  leftPx: number;
  rightPx: number;
}

/** Where things are over the outing: a row for each place, a line for what lies together. */
export function PlaceLines({ layout, plan, topPx, leftPx, rightPx }: PlaceLinesProps) {
  return (
    <g>
      <text className="bw-timeline-axis bw-timeline-strong" x={16} y={topPx - 10}>
        Where things are
      </text>
      {layout.rows.map(({ key, where, y, heightPx }, index) => (
        <g key={key}>
          <rect
            className="bw-timeline-row"
            data-even={index % 2 === 0 || undefined}
            x={leftPx}
            y={y}
            width={rightPx - leftPx}
            height={heightPx}
          />
          <foreignObject x={4} y={y} width={leftPx - 12} height={heightPx}>
            <div className="bw-timeline-role" title={rowText(plan, where)}>
              {rowText(plan, where)}
            </div>
          </foreignObject>
        </g>
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
