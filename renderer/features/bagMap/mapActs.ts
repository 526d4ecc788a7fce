import type { LaidLine } from '../../../shared-types/bagMap.ts';
import type { TaskOuting } from '../../../shared-types/records/task.ts';
import type { Act } from '../../store/store.ts';

/** Keeps where the lines of an outing lie. None: all lie by themselves again. */
export function layLines(outing: TaskOuting, lines: readonly LaidLine[], title: string): Act {
  const { bagMap: _before, ...rest } = outing;
  const put: TaskOuting = lines.length === 0 ? rest : { ...rest, bagMap: [...lines] };
  return { action: 'lay-out-bag', title, proposals: [{ table: 'outings', put }] };
}
