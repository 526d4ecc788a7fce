import { textWidthPx } from '../../components/StackDrawing/labels.ts';
import type { Schedule, Span } from './schedule.ts';

export interface TimeBox {
  span: Span;
  x: number;
  widthPx: number;
  lane: number;
  /** As much of it as fits in the box; empty where nothing does. */
  text: string;
  /** Runs past the limit of the outing. */
  over: boolean;
  /** The work may be left after it. */
  safe: boolean;
}

export interface TimelineLayout {
  widthPx: number;
  heightPx: number;
  leftPx: number;
  rightPx: number;
  lanes: { role: string; y: number; steps: number; minutes: number }[];
  ticks: { x: number; text: string }[];
  boxes: TimeBox[];
  /** The outing's limit; null where it has none. */
  limit: { x: number; text: string; anchor: 'start' | 'end' } | null;
  /** By when it must turn back; null where the outing does not say its way home. */
  turn: { x: number; text: string; anchor: 'start' | 'end' } | null;
  endX: number;
  /** Where a minute lies. */
  at: (minutes: number) => number;
  pxPerMin: number;
}

export const laneHeightPx = 36;
const laneStepPx = 46;
export const axisY = 60;
const lanesTopPx = 78;
const roleWidthMostPx = 180;
/** In a narrow window names take no more than this of it: they run over two lines there. */
const roleShareMost = 0.36;
const edgePx = 16;
/** The shortest step shows its number where the drawing may grow so far. */
const boxLeastPx = 22;
const widthMostPx = 8000;
const tickMinutes = [1, 2, 5, 10, 15, 30, 60, 120, 240, 480, 1440, 2880, 7200, 14_400, 72_000, 288_000];
const tickLeastPx = 64;

/** "1:05": hours and minutes from the start of the outing. */
export function clockText(minutes: number): string {
  const whole = Math.round(minutes * 100) / 100;
  const hours = Math.floor(whole / 60);
  const rest = whole - hours * 60;
  const [full = '0', part] = String(Math.round(rest * 100) / 100).split('.');
  return `${hours}:${full.padStart(2, '0')}${part === undefined ? '' : `.${part}`}`;
}

/** Steps by role on one axis of time, to scale. Narrower than asked it never is; short steps make it wider. */
export function timelineLayout(input: {
  schedule: Schedule;
  roles: readonly string[];
  minutesMax: number | null;
  /** The latest minute at which the way home still fits. */
  turnMin?: number | null;
  /** So many minutes have room on the axis at the least. */
  minutesLeast?: number;
  /** At least so much is kept free on the left. */
  leftLeastPx?: number;
  numberOf: (id: string) => number;
  nameOf: (id: string) => string;
  widthPx: number;
}): TimelineLayout {
  const { schedule, minutesMax, numberOf, nameOf, turnMin = null, minutesLeast = 0, leftLeastPx = 72 } = input;
  const { spans, endMin } = schedule;
  const roles = [...new Set([...input.roles, ...spans.map(({ step }) => step.role)])];
  const leftPx =
    edgePx +
    Math.min(
      roleWidthMostPx,
      input.widthPx * roleShareMost,
      Math.max(leftLeastPx, ...roles.map((role) => textWidthPx(role, 13) + 12)),
    );
  const spanMin = Math.max(endMin, minutesMax ?? 0, minutesLeast, 1);
  const shortestMin = Math.min(
    ...spans.map(({ startMin, endMin: end }) => end - startMin).filter((min) => min > 0),
    spanMin,
  );
  const roomPx = input.widthPx - leftPx - edgePx;
  const pxPerMin = Math.max(
    roomPx / spanMin,
    Math.min(boxLeastPx / shortestMin, (widthMostPx - leftPx - edgePx) / spanMin),
  );
  const rightPx = leftPx + spanMin * pxPerMin;
  const at = (minutes: number): number => leftPx + minutes * pxPerMin;
  const tickMin = tickMinutes.find((minutes) => minutes * pxPerMin >= tickLeastPx) ?? 1_000_000;
  const ticks = Array.from({ length: Math.floor(spanMin / tickMin + 1e-9) + 1 }, (_, index) => ({
    x: at(index * tickMin),
    text: clockText(index * tickMin),
  }));
  const boxes = spans.map((span): TimeBox => {
    const widthPx = (span.endMin - span.startMin) * pxPerMin;
    const number = String(numberOf(span.step.id));
    return {
      span,
      x: at(span.startMin),
      widthPx,
      lane: roles.indexOf(span.step.role),
      text: fitting(number, nameOf(span.step.id), widthPx - 8),
      safe: span.step.safeToLeave === true,
      over: minutesMax !== null && span.endMin > minutesMax * (1 + 1e-9),
    };
  });
  const limitX = minutesMax === null ? null : at(minutesMax);
  return {
    widthPx: rightPx + edgePx,
    heightPx: lanesTopPx + roles.length * laneStepPx + 10,
    leftPx,
    rightPx,
    lanes: roles.map((role, index) => {
      const own = spans.filter(({ step }) => step.role === role);
      const minutes = own.reduce((sum, span) => sum + span.endMin - span.startMin, 0);
      return { role, y: lanesTopPx + index * laneStepPx, steps: own.length, minutes };
    }),
    ticks,
    boxes,
    limit: limitX === null || minutesMax === null ? null : lineAt(limitX, `limit ${clockText(minutesMax)}`, leftPx),
    turn: turnMin === null || turnMin < 0 ? null : lineAt(at(turnMin), `turn back by ${clockText(turnMin)}`, leftPx),
    endX: at(endMin),
    at,
    pxPerMin,
  };
}

/** A line with its word on the side where there is room. */
function lineAt(x: number, text: string, leftPx: number): { x: number; text: string; anchor: 'start' | 'end' } {
  return { x, text, anchor: x - leftPx > 120 ? 'end' : 'start' };
}

/** Number and name, the name cut where the room ends; the number alone; nothing. */
function fitting(number: string, name: string, roomPx: number): string {
  const width = (text: string): number => textWidthPx(text, 12.5);
  if (width(number) > roomPx) return '';
  const whole = `${number} ${name}`;
  if (width(whole) <= roomPx) return whole;
  let end = name.length;
  while (end > 0 && width(`${number} ${name.slice(0, end)}…`) > roomPx) end -= 1;
  return end < 3 ? number : `${number} ${name.slice(0, end).trimEnd()}…`;
}
