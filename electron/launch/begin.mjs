/** The first file of `npm start`: from here on TypeScript is translated as it is read. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

// The translations are otherwise kept in the machine's temporary folder, which a portable program does not touch.
if (existsSync(new URL('../../bagwright-portable', import.meta.url))) process.env['TSX_DISABLE_CACHE'] = '1';
process.argv[1] = fileURLToPath(new URL('start.ts', import.meta.url));
await import('tsx');
await import('./start.ts');
