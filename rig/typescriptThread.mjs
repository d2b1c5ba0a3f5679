// Starts a thread's program where it is TypeScript as it stands: a thread does not inherit the loader of TypeScript from the
// one that starts it.
import { pathToFileURL } from 'node:url';
import { register } from 'tsx/esm/api';

register();
await import(pathToFileURL(process.argv[2]).href);
