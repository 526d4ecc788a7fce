import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { rowText } from './courseWords.ts';
import type { PlaceLayout } from './placeLayout.ts';
import { axisY, laneHeightPx } from './timelineLayout.ts';
import type { TimelineLayout } from './timelineLayout.ts';

export interface TimelineNamesProps {
  plan: ResolvedPlan;
  clock: TimelineLayout;
  /** Null where no line is drawn. */
  places: PlaceLayout | null;
  topPx: number;
  heightPx: number;
}

/** Who does it and where it lies, beside the lanes and rows: they stay in sight while the drawing is scrolled. */
export function TimelineNames({ plan, clock, places, topPx, heightPx }: TimelineNamesProps) {
  const names = [
    ...clock.lanes.map(({ role, y }) => ({ key: `lane ${role}`, text: role, y, heightPx: laneHeightPx })),
    ...(places?.rows ?? []).map(({ key, where, y, heightPx: high }) => ({
      ...{ key, text: rowText(plan, where), y, heightPx: high },
    })),
  ];
  return (
    // The drawing's own words say the same to those who hear it.
    <div
      className="bw-timeline-names"
      aria-hidden="true"
      style={{ width: clock.leftPx - 4, height: heightPx, marginBottom: -heightPx }}
    >
      <span className="bw-timeline-head" style={{ top: axisY - 20 }}>
        h:min
      </span>
      {places === null ? null : (
        <b className="bw-timeline-head" style={{ top: topPx - 22 }}>
          Where things are
        </b>
      )}
      {names.map(({ key, text, y, heightPx: high }) => (
        <div key={key} className="bw-timeline-role" title={text} style={{ top: y, height: high }}>
          <span className="bw-timeline-name">{text}</span>
        </div>
      ))}
    </div>
  );
}
