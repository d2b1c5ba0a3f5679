import { rmSync } from 'node:fs';
import { DRY_RUN, filedArchive } from '../support/filedArchive.ts';
import { killFilings } from './killedFilings.ts';

/**
 * Kills a filing process again and again and looks whether anything is wrong afterwards: `npm run kills -- 200 1`, how often and
 * from which seed. An archive of its own for every ten, so that the looking does not take longer than the filing.
 */

const KILLS_AN_ARCHIVE = 10;

const [kills = '200', seed = '1'] = process.argv.slice(2);
let killed = 0;
let acknowledged = 0;
let within = 0;
let wrong = 0;
for (let archive = 0; killed < Number(kills); archive += 1) {
  const { folder, directory } = await filedArchive([DRY_RUN]);
  const many = Math.min(KILLS_AN_ARCHIVE, Number(kills) - killed);
  for (const report of await killFilings(directory, DRY_RUN, many, Number(seed) + archive)) {
    acknowledged += report.acknowledged;
    within += report.within ? 1 : 0;
    for (const text of report.wrong) console.log(`kill ${killed + 1}: ${text}`);
    wrong += report.wrong.length;
    killed += 1;
  }
  rmSync(folder, { recursive: true, force: true });
  console.log(
    `${killed} kills, ${within} of them while files were made ready; ${acknowledged} filings acknowledged; ${wrong} wrong`,
  );
}
if (wrong > 0) process.exitCode = 1;
