import { StoppedError } from '../store.ts';
import type { Watched } from '../store.ts';

/** The parts of keeping a change, each with the share of the time it takes, as measured with twenty thousand records. */
const parts = { reading: [0, 0.1], comparing: [0.1, 0.2], journal: [0.2, 0.4], copy: [0.4, 1] } as const;

export type Part = keyof typeof parts;

/** Says how far a part has come. @throws StoppedError where a person does not want it any more and none of it is written */
export type Step = (part: Part, done: number, count: number) => void;

export function stepOf({ signal, onProgress }: Watched): Step {
  return (part, done, count) => {
    const [from, to] = parts[part];
    const canStop = part === 'reading' || part === 'comparing';
    if (canStop && signal?.aborted === true) throw new StoppedError('Stopped before anything was written');
    onProgress?.({ share: count === 0 ? to : from + ((to - from) * done) / count, canStop });
  };
}
