import { cpSync, existsSync, readdirSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { checkArchive } from '../../rig/archive/check/checkArchive.ts';
import { openArchive } from '../../rig/archive/openArchive.ts';
import { codeOf, messageOf } from '../../rig/errors.ts';
import { fileRunCertificate } from '../../rig/session/fileRunCertificate.ts';

/**
 * Files a certificate, in a copy of an archive, on a disk that is full but for some kilobytes, again and again with more of them, and says what came of it.
 * Run by the tests on a small file system of its own: node --import tsx tests/kills/fullDisk.ts ARCHIVE FOLDER RUN KILOBYTES...
 */

const [source = '', folder = '', runId = '', ...kilobytes] = process.argv.slice(2);
const directory = join(folder, 'archive');
if (!existsSync(directory)) cpSync(source, directory, { recursive: true });
const filler = join(folder, 'filler');
const archive = openArchive(directory);
const told: object[] = [];
for (const left of kilobytes.map(Number)) {
  const before = readdirSync(join(directory, 'certificates')).sort();
  const { bavail, bsize } = statfsSync(folder);
  writeFileSync(filler, Buffer.alloc(Math.max(0, bavail * bsize - left * 1024)));
  let refusal: { readonly code: string | undefined; readonly message: string } | null = null;
  try {
    await fileRunCertificate(archive, [runId], 'H. Wiese (invented)');
  } catch (error) {
    refusal = { code: codeOf(error), message: messageOf(error) };
  }
  const after = readdirSync(join(directory, 'certificates')).sort();
  const { flaws } = await checkArchive(directory);
  rmSync(filler);
  told.push({
    left,
    refusal,
    added: after.filter((name) => !before.includes(name)),
    inFiling: readdirSync(join(directory, 'filing')),
    wrong: flaws.filter(({ severity }) => severity === 'wrong'),
  });
}
archive.close();
console.log(JSON.stringify(told));
