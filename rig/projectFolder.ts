import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

function folderWithPackage(from: string): string {
  if (existsSync(join(from, 'package.json'))) return from;
  const above = dirname(from);
  if (above === from) throw new Error('the program stands in no folder with a package.json');
  return folderWithPackage(above);
}

/** Where the program stands. Its own files are named from here: a module may run from rig/ or, built, from rig/dist/. */
export const PROJECT_FOLDER = folderWithPackage(dirname(fileURLToPath(import.meta.url)));
