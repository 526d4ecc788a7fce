import type { WatchOut } from '../../../shared-types/records/watchOut.ts';
import type { Act, Proposal } from '../../store/store.ts';

const put = (record: WatchOut): Proposal => ({ table: 'watchOuts', put: record });
const called = ({ text }: WatchOut): string => `“${text.length > 60 ? `${text.slice(0, 59)}…` : text}”`;

export function addWatchOut(record: WatchOut): Act {
  return { action: 'add-watch-out', title: `Add watch-out ${called(record)}`, proposals: [put(record)] };
}

export function editWatchOut(before: WatchOut, record: WatchOut): Act {
  return { action: 'edit-watch-out', title: `Edit watch-out ${called(before)}`, proposals: [put(record)] };
}

export function retireWatchOut(record: WatchOut, retired: NonNullable<WatchOut['retired']>): Act {
  return {
    action: 'retire-watch-out',
    title: `Retire watch-out ${called(record)}`,
    proposals: [put({ ...record, retired })],
  };
}

export function bringBackWatchOut(record: WatchOut): Act {
  const { retired: _gone, ...rest } = record;
  return { action: 'bring-back-watch-out', title: `Bring back watch-out ${called(record)}`, proposals: [put(rest)] };
}
