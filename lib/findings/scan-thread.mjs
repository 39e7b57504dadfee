/** How a thread of `scan-workers.ts` begins: no loader of its process reaches it, and what it does is TypeScript. */
import { register } from 'tsx/esm/api';

register();
await import('./scan-worker.ts');
