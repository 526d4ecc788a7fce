import type { Doer, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import type { Frozen } from '../../engine/frozen/index.ts';
import type { PackedLine } from '../../engine/packing/index.ts';
import type { Place } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import type { Known } from './useKnown.ts';
import type { AtDesk } from './usePackingDesk.ts';

export interface PackPlaceProps {
  place: Extract<Place, { at: 'pack' }>;
  atHand: TaskAtHand;
  now: () => Date;
}

export interface OfRevisionProps extends PackPlaceProps {
  revision: Revision;
  revisions: readonly Revision[];
  events: readonly OutingEvent[];
  outing: string;
}

export interface PackDeskProps extends OfRevisionProps {
  frozen: Frozen;
}

/** What the screens of an outing's packing share. */
export interface PackScreen extends PackDeskProps, AtDesk {
  gloved: boolean;
  known: Known;
  /** Who packs, without name or role where that is not known. */
  doer: Doer;
  /** Asks who acts first, where that is not known; then does it. */
  withDoer: (act: () => void) => void;
}

/** What was said last of what a person did here. */
export interface Said {
  text: string;
  refused: boolean;
}

/** What lies over the packing. */
export type Over =
  | { kind: 'parts'; line: PackedLine; label: string | null }
  | { kind: 'missing' }
  | { kind: 'close' }
  | { kind: 'open' }
  | { kind: 'remark' }
  | { kind: 'plan-without' };
