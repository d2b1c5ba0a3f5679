#!/usr/bin/env node
// The command line is TypeScript; tsx reads it as it stands.
import { register } from 'tsx/esm/api';

register();
const { runCommandLine } = await import('./commandLine/runCommandLine.ts');
process.exitCode = await runCommandLine(process.argv.slice(2));
