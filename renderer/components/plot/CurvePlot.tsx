import { LinePath } from '@visx/shape';
import { showNumber } from '../../engine/units/index.ts';
import { frameLayout, type Axis } from './axis.ts';
import { LimitLines, type PlotLimit } from './LimitLines.tsx';
import { PlotFigure, type PlotAbout } from './PlotFigure.tsx';
import { PlotFrame } from './PlotFrame.tsx';
import { textWidthPx } from '../StackDrawing/labels.ts';
import classes from './Plot.module.css';

export interface CurvePoint {
  x: number;
  y: number;
}

export interface CurvePlotProps extends PlotAbout {
  x: Axis;
  y: Axis;
  points: readonly CurvePoint[];
  limits: readonly PlotLimit[];
  /** Where we are on it. */
  here: CurvePoint & { text: string };
}

const heightPx = 250;
const rowsMost = 25;

/** One quantity against another, with the point at hand. */
export function CurvePlot(props: CurvePlotProps) {
  const { x, y, points, here } = props;
  const heads = [x, y].map(({ quantity, units }) => `${quantity}${units[0].unit === '' ? '' : ` / ${units[0].unit}`}`);
  const every = Math.max(1, Math.ceil(points.length / rowsMost));
  const rows = points
    .filter((_, index) => index % every === 0)
    .map((point) => [showNumber(point.x * x.units[0].per), showNumber(point.y * y.units[0].per)]);
  return (
    <PlotFigure {...props} table={{ heads, rows }}>
      {(widthPx) => <Drawing {...props} widthPx={widthPx} said={`${heads[1]} against ${heads[0]}. ${here.text}.`} />}
    </PlotFigure>
  );
}

function Drawing({ x, y, points, limits, here, widthPx, said }: CurvePlotProps & { widthPx: number; said: string }) {
  const frame = frameLayout(x, y, widthPx, heightPx);
  const [px, py] = [frame.x(here.x), frame.y(here.y)];
  const width = textWidthPx(here.text, 12) + 52;
  const toLeft = px + width > frame.rightPx;
  const end = toLeft ? px - 46 : px + 46;
  const below = Math.min(py + 18, frame.bottomPx - 8);
  return (
    <PlotFrame x={x} y={y} layout={frame} said={said}>
      <LimitLines limits={limits} layout={frame} />
      <LinePath
        className={classes['nominal'] ?? ''}
        data={[...points]}
        x={(point) => frame.x(point.x)}
        y={(point) => frame.y(point.y)}
      />
      <path className={classes['leader']} d={`M${px} ${py}L${toLeft ? px - 30 : px + 30} ${below}H${end}`} />
      <circle className={classes['pointHollow']} cx={px} cy={py} r="5" />
      <text
        className={`${classes['label']} ${classes['strong']}`}
        x={toLeft ? end - 4 : end + 4}
        y={below + 4}
        textAnchor={toLeft ? 'end' : 'start'}
      >
        {here.text}
      </text>
    </PlotFrame>
  );
}
