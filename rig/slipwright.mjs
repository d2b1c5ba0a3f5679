#!/usr/bin/env node
// The command line is TypeScript. `npm ci` builds it into rig/dist/, which starts in a quarter of the time; where a source
// is newer than that, or nothing is built, tsx reads the TypeScript as it stands.
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const RIG = import.meta.dirname;
const BUILT = join(RIG, 'dist', 'runCommandLine.js');

/** When a file was last written; long ago where there is none [ms]. */
function writtenAtMs(path) {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
}

/** Whether anything in a folder was written after a moment. */
function isNewer(folder, thanMs) {
  return readdirSync(folder, { withFileTypes: true }).some((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name !== 'dist' && isNewer(path, thanMs);
    return writtenAtMs(path) > thanMs;
  });
}

async function commandLine() {
  const builtAtMs = writtenAtMs(BUILT);
  const isBuilt = builtAtMs > 0 && ![RIG, join(RIG, '..', 'analysis')].some((folder) => isNewer(folder, builtAtMs));
  if (isBuilt) return import('./dist/runCommandLine.js');
  const { register } = await import('tsx/esm/api');
  register();
  return import('./commandLine/runCommandLine.ts');
}

const { runCommandLine } = await commandLine();
process.exitCode = await runCommandLine(process.argv.slice(2));
