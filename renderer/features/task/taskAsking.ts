import { createAsking } from './asking.ts';

/** The palette asks for the task's facts to be edited. */
export const taskAsking = createAsking<'edit'>();
