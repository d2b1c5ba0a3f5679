import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { PROJECT_FOLDER } from './projectFolder.ts';

const packageFile = z.looseObject({ version: z.string() });

/** Version of this program, as package.json has it. */
export const PROGRAM_VERSION = packageFile.parse(
  JSON.parse(readFileSync(join(PROJECT_FOLDER, 'package.json'), 'utf8')),
).version;
