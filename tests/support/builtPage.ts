import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';

/** Builds the page as it stands into a folder of its own, so that no test looks at an old one. */
export async function buildPage(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'slipwright-page-'));
  await build({
    configFile: new URL('../../web/page/vite.config.ts', import.meta.url).pathname,
    logLevel: 'warn',
    build: { outDir: folder },
  });
  return folder;
}
