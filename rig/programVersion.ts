import { readFileSync } from 'node:fs';
import { z } from 'zod';

const packageFile = z.looseObject({ version: z.string() });

/** Version of this program, as package.json has it. */
export const PROGRAM_VERSION = packageFile.parse(
  JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8')),
).version;
