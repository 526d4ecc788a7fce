/** The desktop shell. This file becomes `dist/main/main.js`, beside the rest of the build. */
import { join } from 'node:path';
import { startShell } from './shell.ts';

startShell(join(import.meta.dirname, '..'));
