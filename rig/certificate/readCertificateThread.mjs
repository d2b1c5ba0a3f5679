// Starts the thread of readCertificateThread.ts where the program runs as it stands: a thread does not inherit the loader of
// TypeScript from the one that starts it.
import { register } from 'tsx/esm/api';

register();
await import('./readCertificateThread.ts');
