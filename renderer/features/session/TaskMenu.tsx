import { Menu } from '@mantine/core';
import { placeAddress } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import type { WindowDeeds } from './useDeeds.ts';
import { goTo } from './usePlace.ts';

export interface TaskMenuProps {
  atHand: TaskAtHand;
  deeds: Pick<WindowDeeds, 'bringFileIn' | 'saveTask' | 'closeTask'>;
}

/** The task's name, and from it the way to its front sheet or another task. */
export function TaskMenu({ atHand, deeds }: TaskMenuProps) {
  const { task, plan } = atHand;
  const site = plan.source.task?.site;
  const second = [task.code, site].filter((text) => text !== undefined).join(' · ');
  return (
    <>
      <Menu position="bottom-start" width={270} withinPortal={false}>
        <Menu.Target>
          <button type="button" className="bw-task-name" title={task.name}>
            <span>{task.name}</span>
            <span aria-hidden="true">▾</span>
          </button>
        </Menu.Target>
        <Menu.Dropdown>
          <Menu.Item component="a" href={placeAddress({ at: 'front' })}>
            Front sheet
          </Menu.Item>
          <Menu.Item onClick={() => goTo({ at: 'first' })}>Another task…</Menu.Item>
          <Menu.Item onClick={deeds.bringFileIn}>Bring a plan file in…</Menu.Item>
          <Menu.Item onClick={deeds.saveTask}>Save this task as a plan file…</Menu.Item>
          <Menu.Item onClick={deeds.closeTask}>Close this task</Menu.Item>
        </Menu.Dropdown>
      </Menu>
      <div className="bw-task-second" title={second}>
        {second}
      </div>
    </>
  );
}
