/** The one place zod comes from. `jitless` keeps it from compiling code, which the pages' policy forbids. */
import { z } from 'zod';

z.config({ jitless: 'document' in globalThis || 'WorkerGlobalScope' in globalThis });

export { z };
