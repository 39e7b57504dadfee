/** How a thread of `thread-pool.ts` begins: no loader of its process reaches it, and what it does is TypeScript. */
import { fileURLToPath } from 'node:url';
import { workerData } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

// Also where the process was started in another folder.
register({ tsconfig: fileURLToPath(new URL('../../../tsconfig.json', import.meta.url)) });
await import(workerData.module);
