/** One closed or open line of a drawing. Fills and inks are names; the style sheet gives them their tokens. */
export interface Outline {
  d: string;
  ink: 'visible' | 'narrow' | 'hidden' | 'centre' | 'other' | 'short' | 'jam' | 'touched' | 'none';
  fill: 'none' | 'steel' | 'tool' | 'brass' | 'field' | 'cutHost' | 'cutPlate' | 'cutSocket' | 'short' | 'jam';
  /** What it stands for, for tests and for nothing else. */
  of: string;
}

export type Point = readonly [number, number];

/** Two decimals of a pixel: enough for any screen, and the same text on every machine. */
function px(value: number): string {
  return String(Math.round(value * 100) / 100);
}

export function line(...points: Point[]): string {
  return points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${px(x)} ${px(y)}`).join('');
}

export function closed(...points: Point[]): string {
  return `${line(...points)}Z`;
}

export function box(x1: number, y1: number, x2: number, y2: number): string {
  return closed([x1, y1], [x2, y1], [x2, y2], [x1, y2]);
}

/** A profile turned about the centre line: the upper half given from left to right, the lower mirrored. */
export function turned(centreY: number, upper: readonly (readonly [x: number, radius: number])[]): string {
  const above = upper.map(([x, r]): Point => [x, centreY - r]);
  const below = upper.toReversed().map(([x, r]): Point => [x, centreY + r]);
  return closed(...above, ...below);
}

export function circle(x: number, y: number, radius: number): string {
  return `M${px(x - radius)} ${px(y)}a${px(radius)} ${px(radius)} 0 1 0 ${px(2 * radius)} 0a${px(radius)} ${px(radius)} 0 1 0 ${px(-2 * radius)} 0Z`;
}

export function arc(centre: Point, radius: number, fromDeg: number, toDeg: number): string {
  const [x1, y1] = onCircle(centre, radius, fromDeg);
  const [x2, y2] = onCircle(centre, radius, toDeg);
  const large = Math.abs(toDeg - fromDeg) > 180 ? 1 : 0;
  const sweep = toDeg > fromDeg ? 1 : 0;
  return `M${px(x1)} ${px(y1)}A${px(radius)} ${px(radius)} 0 ${large} ${sweep} ${px(x2)} ${px(y2)}`;
}

/** 0° is up, clockwise. */
export function onCircle([x, y]: Point, radius: number, deg: number): Point {
  const turn = (deg * Math.PI) / 180;
  return [x + radius * Math.sin(turn), y - radius * Math.cos(turn)];
}
