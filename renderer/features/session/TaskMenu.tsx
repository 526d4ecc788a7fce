import { Menu } from '@mantine/core';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';

export interface TaskMenuProps {
  plan: ResolvedPlan;
  fileName: string;
  demos: readonly { id: string; name: string; open: () => void }[];
  onOpenFile: () => void;
  onFirstPage: () => void;
  onClosePlan: () => void;
}

/** The task's name, and from it the way to another task. */
export function TaskMenu({ plan, fileName, demos, onOpenFile, onFirstPage, onClosePlan }: TaskMenuProps) {
  const { task } = plan.source;
  const second =
    task === undefined
      ? 'the file names no task'
      : [fileName, task.site].filter((text) => text !== undefined).join(' · ');
  return (
    <>
      <Menu position="bottom-start" width={270} withinPortal={false}>
        <Menu.Target>
          <button type="button" className="bw-task-name" title={task?.name ?? fileName}>
            <span>{task?.name ?? fileName}</span>
            <span aria-hidden="true">▾</span>
          </button>
        </Menu.Target>
        <Menu.Dropdown>
          <Menu.Item onClick={onOpenFile}>Open a plan file…</Menu.Item>
          {demos.map(({ id, name, open }) => (
            <Menu.Item key={id} onClick={open}>
              Open worked example: {name}
            </Menu.Item>
          ))}
          <Menu.Item onClick={onFirstPage}>First page</Menu.Item>
          <Menu.Item onClick={onClosePlan}>Close this plan</Menu.Item>
        </Menu.Dropdown>
      </Menu>
      <div className="bw-task-second" title={second}>
        {second}
      </div>
    </>
  );
}
