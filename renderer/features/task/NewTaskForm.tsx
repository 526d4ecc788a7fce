import type { TaskStep } from '../../../shared-types/records/task.ts';
import { TaskForm } from './TaskForm.tsx';

export interface NewTaskFormProps {
  /** The new task's key, once it is kept. */
  onCreated: (taskId: string) => void;
  onLeave: () => void;
}

const noSteps: readonly TaskStep[] = [];

/** A task of nobody's file, with its first outing where a role is named. */
export function NewTaskForm({ onCreated, onLeave }: NewTaskFormProps) {
  return <TaskForm before={null} steps={noSteps} onSaved={({ id }) => onCreated(id)} onLeave={onLeave} />;
}
