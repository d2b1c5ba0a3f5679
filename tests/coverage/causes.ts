import { z } from 'zod';
import { diagnoseStart } from '../../analysis/dryLift/diagnosis/diagnoseStart.ts';
import { findStartEvents } from '../../analysis/dryLift/events/findStartEvents.ts';
import { accepted } from '../support/accepted.ts';
import { PLANTED_CAUSES, type PlantedCause, plantedCause } from '../support/plantedCause.ts';

/**
 * `node --import tsx tests/coverage/causes.ts COUNT SEED`: on so many practice starts for each cause that can be planted, how
 * often another is told, or none.
 */

const options = z
  .object({ count: z.coerce.number().int().positive(), seed: z.coerce.number().int() })
  .safeParse({ count: process.argv[2], seed: process.argv[3] });
if (!options.success) {
  process.stderr.write(`tests/coverage/causes.ts COUNT SEED\n${z.prettifyError(options.error)}\n`);
  process.exit(2);
}
const { count, seed } = options.data;
const MOST_WRONG = 0.05;
const MOST_UNTOLD = 0.3;

/** What is told of a start: its cause, or why none. */
function toldOf(
  planted: PlantedCause,
  at: number,
): { readonly told: boolean; readonly code: string; readonly sign: string } {
  const { run, readings, bench } = plantedCause(planted, at);
  const { sweptVolumeM3PerRev } = bench.truth();
  const events = accepted(findStartEvents(run, readings, sweptVolumeM3PerRev));
  if (events.sustainedDelivery.seen) return { told: true, code: 'primed', sign: '' };
  return diagnoseStart(run, readings, events, sweptVolumeM3PerRev).cause;
}

const lines: string[] = [];
let [wrong, untold] = [0, 0];
for (const planted of PLANTED_CAUSES) {
  const told = Array.from({ length: count }, (_, index) => ({
    at: seed + index,
    cause: toldOf(planted, seed + index),
  }));
  const off = told.filter(({ cause }) => cause.told && cause.code !== planted);
  const open = told.filter(({ cause }) => !cause.told);
  wrong += off.length;
  untold += open.length;
  lines.push(
    `${planted.padEnd(20)} right ${count - off.length - open.length}, wrong ${off.length}, cannot tell ${open.length}`,
  );
  lines.push(...[...off, ...open].map(({ at, cause: { code, sign } }) => `    seed ${at}: ${code}. ${sign}`));
}
const all = count * PLANTED_CAUSES.length;
const isAsPromised = wrong <= MOST_WRONG * all && untold <= MOST_UNTOLD * all;
lines.push(`wrong ${wrong} of ${all}, cannot tell ${untold}: ${isAsPromised ? 'as promised' : 'not as promised'}`);
process.stdout.write(`${lines.join('\n')}\n`);
process.exitCode = isAsPromised ? 0 : 1;
