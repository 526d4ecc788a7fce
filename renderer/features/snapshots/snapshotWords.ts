import type { SnapshotFolder, SnapshotReason } from '../../../shared-types/snapshot.ts';
import { roundNominal } from '../../engine/units/index.ts';
import { dayAndClockText } from '../../store/clock.ts';

export const reasonWords: Record<SnapshotReason, string> = {
  'half-hour': 'From time to time',
  asked: 'Asked for',
  leaving: 'On leaving',
  'before-restore': 'Before a restore or a file brought in',
  'before-recovery': 'Before a recovery',
  'before-deletion': 'Before much was removed',
  'before-large-change': 'Before a large change',
  'before-new-version': 'Before a new version',
};

export const whenText = (utc: string): string => dayAndClockText(new Date(utc));

/** In the unit that keeps it short, of the decimal ones: a MB is a million bytes. */
export function bytesText(bytes: number): string {
  if (bytes < 1_000) return `${bytes} B`;
  return bytes < 1_000_000 ? `${roundNominal(bytes / 1_000, 0)} kB` : `${roundNominal(bytes / 1_000_000, 1)} MB`;
}

export const placeWords: Record<string, string> = {
  here: 'Here',
  second: 'Second folder',
  'here second': 'Here and second folder',
};

export const damagedWords: Record<SnapshotFolder, string> = {
  here: 'here',
  second: 'in the second folder',
};
