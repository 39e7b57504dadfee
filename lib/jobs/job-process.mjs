/** How the process of a job begins: what it does is TypeScript. */
import { fileURLToPath } from 'node:url';
import { register } from 'tsx/esm/api';

// Also where the worker was started in another folder.
register({ tsconfig: fileURLToPath(new URL('../../tsconfig.json', import.meta.url)) });
await import('./job-process.ts');
