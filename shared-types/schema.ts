/** The one place zod comes from. `jitless` keeps it from compiling code in a page and its workers, whose policy forbids it; the host compiles its shapes. */
import { z } from 'zod';

z.config({ jitless: 'document' in globalThis || 'WorkerGlobalScope' in globalThis });

export { z };
