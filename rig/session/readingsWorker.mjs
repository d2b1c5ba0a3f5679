// Starts the thread of readingsWorker.ts: a thread does not inherit the loader of TypeScript from the one that starts it.
import { register } from 'tsx/esm/api';

register();
await import('./readingsWorker.ts');
