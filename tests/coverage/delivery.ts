import { parseArgs } from 'node:util';
import { z } from 'zod';
import { errorShape } from '../../rig/practiceBench/sensors.ts';
import { brokenPromises, coverageOf } from './coverage.ts';
import { FIGURES, type Measured } from './figures.ts';
import { measureDelivery } from './measureDelivery.ts';
import { oracleHalfWidths } from './oracleHalfWidths.ts';
import { recordHealthy } from './recordHealthy.ts';

/**
 * `npm run coverage -- COUNT SEED [--shape normal|rectangular]`: how often the 95 % intervals of a delivery run hold the
 * truth, on so many healthy practice benches whose instruments are off by draws from their stated calibration.
 */

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { shape: { type: 'string', default: 'normal' } },
});
const options = z
  .object({ count: z.coerce.number().int().positive(), seed: z.coerce.number().int(), shape: errorShape })
  .safeParse({ count: positionals[0], seed: positionals[1], shape: values.shape });
if (!options.success) {
  process.stderr.write(
    `npm run coverage -- COUNT SEED [--shape normal|rectangular]\n${z.prettifyError(options.error)}\n`,
  );
  process.exit(2);
}
const { count, seed, shape } = options.data;

const startedMs = performance.now();
const benches: Measured[] = [];
for (let index = 0; index < count; index += 1) {
  benches.push(measureDelivery(recordHealthy(seed + index, shape), oracleHalfWidths));
}
const secondsPerBench = (performance.now() - startedMs) / 1000 / count;

const coverage = coverageOf(benches);
const judged = count - coverage.refusedCodes.length;
const broken = brokenPromises(coverage);
const say = (text: string): boolean => process.stdout.write(`${text}\n`);

say(`${count} healthy practice benches, seeds ${seed} to ${seed + count - 1}, errors ${shape}`);
say(`refused ${coverage.refusedCodes.length} ${coverage.refusedCodes.join(' ')}`);
say('');
say('95 % interval of              holds the truth   median over oracle');
const LABEL = {
  capacity: 'derived capacity V_i',
  slip: 'slip at the duty',
  efficiency: 'efficiency at the duty',
  flow: 'flow at the duty',
} as const;
for (const name of FIGURES) {
  const share = `${((100 * coverage.heldCounts[name]) / judged).toFixed(1)} %`;
  const ratio = coverage.widthRatios[name].toFixed(2);
  say(`${LABEL[name].padEnd(30)}${share.padStart(15)}${ratio.padStart(21)}`);
}
say('');
say(broken.length === 0 ? 'all as promised' : `not as promised: ${broken.join(', ')}`);
say(`${secondsPerBench.toFixed(2)} s a bench`);
process.exitCode = broken.length === 0 ? 0 : 1;
