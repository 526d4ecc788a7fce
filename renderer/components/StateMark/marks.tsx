import type { ReactElement } from 'react';

/**
 * Every state the program speaks of: its word, its tone and its own shape. The shape and the word carry the meaning;
 * the tone only repeats it, so that greyscale, forced colours and a photocopy lose nothing.
 */
export interface Mark {
  word: string;
  tone: 'ok' | 'bad' | 'doubt' | 'move' | 'plain';
  /** Width of the drawing field in px; its height is 16. */
  width: number;
  shape: ReactElement;
}

const limits = <path d="M6 2V14M15 2V14" />;
const hole = <path d="M0 5H4.5V14.5H13.5V5H18" />;
const pocket = <path d="M2.5 4.5V14H13.5V4.5" />;

/** Filled blocks carry `data-solid`, as the line width alone would not tell them from hollow ones in greyscale. */
function block(x: number, y: number, width: number, height: number): ReactElement {
  return <rect data-solid="" x={x} y={y} width={width} height={height} />;
}

function hollow(x: number, y: number, width: number, height: number, dash?: string): ReactElement {
  return <rect x={x} y={y} width={width} height={height} strokeDasharray={dash} />;
}

function mark(word: string, tone: Mark['tone'], width: number, ...parts: ReactElement[]): Mark {
  const shape = (
    <>
      {parts.map((part, index) => (
        <g key={index}>{part}</g>
      ))}
    </>
  );
  return { word, tone, width, shape };
}

export const marks = {
  // Judgement: two limits and a bar where the value lies; hollow across a limit.
  conforming: mark('Conforming', 'ok', 22, limits, block(8, 5.5, 5, 5)),
  nonconforming: mark('Nonconforming', 'bad', 22, limits, block(16.8, 5.5, 5, 5), block(0, 5.5, 4.4, 5)),
  'nonconforming-over': mark('Nonconforming, over', 'bad', 22, limits, block(16.8, 5.5, 5, 5)),
  'nonconforming-under': mark('Nonconforming, under', 'bad', 22, limits, block(0, 5.5, 4.4, 5)),
  indeterminate: mark('Indeterminate', 'doubt', 22, limits, hollow(11.2, 5.5, 8, 5)),
  unreadable: mark('Not readable', 'doubt', 22, limits, <path d="M8.5 8H12.5" strokeDasharray="1.2 1.4" />),

  // Pieces: a pocket and a block; a broken pocket misses its piece.
  'to-pack': mark('To pack', 'plain', 16, pocket),
  next: mark('Next', 'plain', 16, pocket, hollow(5, 0.8, 6, 5), <path d="M8 7.4V11.6M6 9.8L8 11.8L10 9.8" />),
  packed: mark('Packed', 'ok', 16, pocket, block(5, 6, 6, 5.8)),
  missing: mark('Missing', 'bad', 16, <path d="M2.5 4.5V14H5.4M10.6 14H13.5V4.5M5.2 3L10.8 8.6M10.8 3L5.2 8.6" />),
  out: mark('Out', 'move', 16, <path d="M2.5 8.5V14.5H13.5V8.5" />, block(5, 0.5, 6, 5.6)),
  'set-down': mark('Set down', 'move', 16, <path d="M0.5 12.2H15.5M3.5 14.8H12.5" />, block(5, 4.6, 6, 6)),
  back: mark('Back', 'ok', 16, <path d="M2.5 5V14H13.5V5M0.8 3H15.2" />, block(5, 6.6, 6, 5.2)),

  // Stacks: a hole and a bar; a bar that stops short reaches nothing.
  reached: mark('Reached', 'ok', 18, hole, block(7, 1, 4, 12.2)),
  'not-reached': mark(
    'Not reached',
    'doubt',
    18,
    hole,
    block(7, 0.5, 4, 6.6),
    <path d="M6.2 10.4H11.8" strokeDasharray="1.6 1.2" />,
  ),
  'by-hand': mark('By hand', 'plain', 18, hole, <circle cx="9" cy="9.6" r="2.6" />),
  'no-stack': mark('No stack', 'bad', 18, hole, <path d="M6.5 6L11.5 12M11.5 6L6.5 12" />),
  'not-complete': mark(
    'Not complete',
    'doubt',
    18,
    hole,
    hollow(6.5, 0.8, 5, 4.4),
    <path d="M9 7.4V13" strokeDasharray="1.6 1.6" />,
  ),

  // Bags: the best found as a bar, the bound as a wall; where they meet, nothing less exists.
  'proved-least': mark('Proved least', 'ok', 18, <path d="M12.6 1V15" />, block(1, 5, 10.8, 6)),
  'not-proved': mark(
    'Not proved',
    'doubt',
    18,
    <path d="M7 1V15" />,
    block(1, 5, 5.2, 6),
    hollow(8.4, 5.8, 7.6, 4.4, '2 1.4'),
  ),
  infeasible: mark(
    'Infeasible',
    'bad',
    18,
    <path d="M5.6 2H1.4V14H5.6M12.4 2H16.6V14H12.4M9.8 .8L7.4 5.2L10.6 9.6L8.2 15.2" />,
  ),

  // Saving: a block on the line is written, lifted is not yet, struck is not saved.
  saved: mark('Saved', 'plain', 16, <path d="M1 13.6H15" />, block(4.5, 5, 7, 7)),
  saving: mark('Saving', 'plain', 16, <path d="M1 13.6H15" />, hollow(5, 2.5, 6, 6)),
  'not-saved': mark('NOT SAVED', 'bad', 16, <path d="M1 13.6H5M11 13.6H15M3 11.2L13 .8" />, hollow(5, 3, 6, 6)),

  // Catalog: a line crossed out over a place left empty; a dial whose hand stands short of, at or past its stop.
  retired: mark('Retired', 'plain', 16, <path d="M1 13.6H15M2 12L14 2" />, hollow(4.5, 6, 7, 6, '1.7 1.3')),
  calibrated: mark('Calibrated', 'ok', 18, <path d="M2 13A7 7 0 0 1 16 13M9 13L5 8.4" />),
  'calibration-due': mark('Due', 'doubt', 18, <path d="M2 13A7 7 0 0 1 16 13M9 13L14 9.6M17 5V13" />),
  'calibration-overdue': mark('Overdue', 'bad', 18, <path d="M2 13A7 7 0 0 1 16 13M1 1.6L9 13L17 1.6M9 1V5" />),
  'calibration-unknown': mark(
    'Calibration not said',
    'doubt',
    18,
    <path d="M2 13A7 7 0 0 1 16 13" strokeDasharray="2 1.6" />,
  ),

  // Outings: lines of time and of place.
  clash: mark(
    'Clash',
    'bad',
    16,
    <path d="M1 3.5H9V8M15 12.5H7V8" />,
    <path data-solid="" d="M8 4.6L11.4 8L8 11.4L4.6 8Z" />,
  ),
  'left-behind': mark('Left behind', 'doubt', 18, <path d="M0 13.6H8M10.5 6V13.6H17.2V6" />, block(1.4, 7, 5, 5)),
  'not-there': mark('Not there', 'bad', 16, <path d="M1 13.6H15" />, hollow(5, 5.6, 6, 6, '1.7 1.3')),
  'over-time': mark('Over time', 'bad', 18, <path d="M1 3V13M11 3V13M1 8H11" />, block(11, 5.6, 6.4, 4.8)),
  'not-packed': mark(
    'Not packed',
    'bad',
    18,
    pocket,
    hollow(5, 0.8, 6, 5, '1.7 1.3'),
    <path d="M14 1L18 5M18 1L14 5" />,
  ),
  'over-carry': mark('Too heavy', 'bad', 18, <path d="M1 9.4H17M9 9.4V15" />, block(3, 0.6, 12, 7)),
  'no-tether-point': mark(
    'No tether point',
    'bad',
    18,
    <path d="M1 2H8M4.5 2V6M4.5 9.6V13" />,
    hollow(10, 8, 6.6, 6.4),
  ),
  'no-pouch-place': mark(
    'No pouch place',
    'bad',
    18,
    <path d="M1 6V15H17V6" />,
    block(3.4, 8.4, 11.4, 4.8),
    hollow(6, 0.6, 6, 5),
  ),
  'hands-full': mark(
    'Hands full',
    'bad',
    18,
    <path d="M0.6 13.6C3 16 15 16 17.4 13.6" />,
    block(1, 5, 4.6, 6),
    block(6.8, 5, 4.6, 6),
    block(12.6, 5, 4.6, 6),
  ),
  'count-differs': mark(
    'Counts differ',
    'bad',
    18,
    block(0.6, 1, 4, 4),
    block(0.6, 6, 4, 4),
    block(0.6, 11, 4, 4),
    hollow(12, 1.6, 4, 4),
    hollow(12, 8.6, 4, 4),
  ),
  'out-of-order': mark(
    'Out of order',
    'bad',
    18,
    <path d="M3 13.6C3 2 15 2 15 13M12 10L15 13.6L18 10" />,
    hollow(7, 10, 4, 4),
  ),
  'left-loosened': mark('Left loosened', 'doubt', 18, hole, hollow(7, 1, 4, 7), <path d="M4 11.4H14" />),
  'site-short': mark(
    'Short at the site',
    'bad',
    18,
    <path d="M0 6H3V14H7V6H11V14H15V6H18" strokeDasharray="4 1" />,
    block(4, 1.4, 2.6, 10),
  ),
  'other-way': mark(
    'Measures the other way',
    'bad',
    18,
    <path d="M16.4 4.4A7.4 7.4 0 0 0 2 8M2 3V8H7" />,
    <path d="M3 15H15M12 12L15 15" strokeDasharray="2.4 1.4" />,
  ),
  loose: mark(
    'Loose',
    'bad',
    18,
    <path d="M1 1H17" strokeDasharray="3 2" />,
    <path d="M9 3.4V6.4" />,
    hollow(5.6, 8.6, 6.8, 6, '2 1.2'),
  ),

  // Loose pieces: what keeps them.
  held: mark('Held', 'plain', 18, <path d="M1 8V14.6H17V8" />, <path d="M1 8H4M14 8H17" />, hollow(6, 4, 6, 6)),
  tethered: mark('Tethered', 'ok', 18, <path d="M1 1.6H9M5 1.6C5 8 13 3 13 8.4" />, block(9.8, 8.4, 6.4, 6)),
  fixed: mark('Fixed', 'plain', 18, hole, block(4.6, 0.8, 8.8, 3.4), block(7.4, 4.2, 3.2, 9)),
  used: mark('Used up', 'plain', 16, <path d="M2.5 4.5V14H13.5V4.5" strokeDasharray="2 1.6" />, <path d="M5 9H11" />),
} satisfies Record<string, Mark>;

export type MarkState = keyof typeof marks;
