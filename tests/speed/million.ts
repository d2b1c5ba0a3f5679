import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, mkdtempSync, openSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { analyseRun } from '../../analysis/analyseRun.ts';
import { averagedHolds } from '../../analysis/delivery/analyseDelivery.ts';
import { fitSlip } from '../../analysis/delivery/fitSlip.ts';
import { isPointDemand } from '../../analysis/efficiency/dutyOutlook.ts';
import { lawSpeaker } from '../../analysis/efficiency/lawSpeaker.ts';
import { runTrials } from '../../analysis/monteCarlo/runTrials.ts';
import { stateUncertainty } from '../../analysis/uncertainty/stateUncertainty.ts';
import { importCsv } from '../../rig/decode/importCsv.ts';
import { readFileBytes } from '../../rig/decode/readFileBytes.ts';
import { importedRun } from '../../rig/decode/readRunReadings.ts';
import { accepted } from '../support/accepted.ts';
import { inventedBench } from '../support/benchRecord.ts';
import { inventedRun } from '../support/inventedRun.ts';
import { BIG_RUN, writeBigRun } from './bigRun.ts';
import { medianComputedS, medianProcess, medianS, timedProcess } from './timedProcess.ts';

/**
 * How long an hour at 1000 readings a second takes, on its way from a CSV file to a result: medians, each with its limit. Files lie
 * in memory where the system has a folder there, so that no disk is timed; what a sync to disk costs is told apart.
 * Programs are timed by the clock; work in memory by the clock or by what it computed, whichever is less.
 * Run by hand: node --import tsx tests/speed/million.ts
 */

const SEED = 1;
const PROCESS_RUNS = 5;
const REPEATS = 7;
const TRIALS = 10_000;

const PROJECT = fileURLToPath(new URL('../..', import.meta.url));
const SLIPWRIGHT = join(PROJECT, 'rig/slipwright.mjs');
const MEMORY_FOLDER = '/dev/shm';

type Row = { readonly what: string; readonly value: string; readonly limit: string; readonly isWithin: boolean };
const rows: Row[] = [];

/** A number with its limit, if it has one. */
function tell(what: string, value: number, unit: string, limit: number | null = null): void {
  rows.push({
    what,
    value: `${value.toFixed(unit === 'MB' ? 0 : 3)} ${unit}`,
    limit: limit === null ? '' : `${limit} ${unit}`,
    isWithin: limit === null || value <= limit,
  });
}

const folder = mkdtempSync(join(existsSync(MEMORY_FOLDER) ? MEMORY_FOLDER : tmpdir(), 'slipwright-speed-'));
try {
  timeAll(folder);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
for (const { what, value, limit, isWithin } of rows) {
  const verdict = limit === '' ? '' : `${limit}: ${isWithin ? 'kept' : 'EXCEEDED'}`;
  console.log(`${what.padEnd(56)} ${value.padStart(12)}   ${verdict}`.trimEnd());
  if (!isWithin) process.exitCode = 1;
}
console.log(
  `load of this machine meanwhile: ${loadavg()
    .map((load) => load.toFixed(1))
    .join(', ')}`,
);

function timeAll(work: string): void {
  const csv = join(work, 'run.csv');
  writeBigRun(csv, SEED);
  console.log(`${BIG_RUN.rows} rows of seven columns, ${(statSync(csv).size / 1e6).toFixed(0)} MB, seed ${SEED}`);
  const imported = timeProcesses(work, csv);
  timeParts(work, csv);
  timeScript(csv, imported);
}

/** Whole programs: a bare copy, an import, and showing what was imported. @returns the import's wall time [s] */
function timeProcesses(work: string, csv: string): number {
  const copy = join(work, 'copy.csv');
  const bare = medianProcess(PROCESS_RUNS, () =>
    timedProcess([join(PROJECT, 'tests/speed/bareCopy.mjs'), csv, copy], work),
  );
  rmSync(copy);

  const archive = join(work, 'archive');
  const bench = join(work, 'bench.json');
  writeFileSync(bench, JSON.stringify(inventedBench()));
  const imported = medianProcess(PROCESS_RUNS, () => {
    rmSync(archive, { recursive: true, force: true });
    return timedProcess(
      [
        ...[SLIPWRIGHT, 'import', csv, '--archive', archive, '--bench', bench],
        ...['--pump', join(PROJECT, 'samples/pumps/dredger-feed-pump.json')],
        ...['--conditions', join(PROJECT, 'samples/conditions/practice-conditions.json')],
        ...['--operator', 'nobody (invented)', '--started-at', '2026-06-01T08:00:00Z'],
      ],
      work,
    );
  });
  if (!imported.output.includes(`${BIG_RUN.holds} holds`))
    throw new Error(`other holds than planted: ${imported.output}`);
  const shown = medianProcess(PROCESS_RUNS, () =>
    timedProcess([SLIPWRIGHT, 'show', '2026-06-01-0001', '--archive', archive], work),
  );
  rmSync(archive, { recursive: true });

  tell('bare read, hash and write, a program', bare.wallS, 's');
  tell('CSV import with analysis, a program', imported.wallS, 's', 1.2);
  tell('  against the bare one', imported.wallS / bare.wallS, 'times', 3);
  tell('  at its peak in memory', imported.peakMB, 'MB', 1000);
  tell('  of the processor, all threads', imported.processorS, 's');
  tell('reopening the analysed run, a program', shown.wallS, 's', 0.3);
  tell('  of the processor, all threads', shown.processorS, 's');
  return imported.wallS;
}

/** The parts by themselves; in the import, copy and hash run beside the columns. */
function timeParts(work: string, csv: string): void {
  const start = medianProcess(PROCESS_RUNS, () => timedProcess([SLIPWRIGHT, '--version'], work));
  tell('part: process start', start.wallS, 's');
  const bytes = readFileBytes(csv);
  const copy = join(work, 'copy.csv');
  tell(
    'part: copy of the evidence',
    medianS(REPEATS, () => writeFileSync(copy, bytes)),
    's',
  );
  rmSync(copy);
  tell(
    'part: hash',
    medianS(REPEATS, () => createHash('sha256').update(bytes).digest()),
    's',
  );
  tell(
    'part: columns',
    medianS(REPEATS, () => importCsv(bytes, inventedBench(), 101_325)),
    's',
  );
  tell('part: copy synced to disk', syncedCopyS(bytes), 's');

  const { readings, census } = importedRun(importCsv(bytes, inventedBench(), 101_325));
  const run = inventedRun('delivery');
  const evidence = { run, readings, census, isPractice: false, exclusions: [] };
  const result = analyseRun(evidence);
  tell(
    'analysis of columns in memory',
    medianComputedS(REPEATS, () => analyseRun(evidence)),
    's',
    0.25,
  );

  const holds = averagedHolds(run, readings);
  const fitted = (): void => {
    const { uncertain } = accepted(fitSlip(holds));
    for (const value of Object.values(uncertain)) stateUncertainty(value, result.sources);
  };
  fitted();
  tell(`fit of ${holds.length} holds with full budget`, medianComputedS(REPEATS, fitted), 's', 0.05);

  const { delivery } = result;
  if (delivery === null || !delivery.law.ok) throw new Error('the big run has no law');
  const speaker = lawSpeaker(run, delivery.law.value, null, Object.values(result.sources));
  const demands = run.pump.duty?.demands.filter(isPointDemand) ?? [];
  const fit = accepted(fitSlip(holds));
  const trials = (): unknown => runTrials(speaker, fit, holds, demands, { trials: TRIALS, seed: SEED });
  tell(`Monte Carlo, ${TRIALS} trials`, medianComputedS(3, trials), 's', 2);
}

function syncedCopyS(bytes: Uint8Array): number {
  const onDisk = mkdtempSync(join(tmpdir(), 'slipwright-speed-'));
  try {
    return medianS(3, () => {
      const file = openSync(join(onDisk, 'copy.csv'), 'w');
      try {
        writeFileSync(file, bytes);
        fsyncSync(file);
      } finally {
        closeSync(file);
      }
    });
  } finally {
    rmSync(onDisk, { recursive: true, force: true });
  }
}

/** The same job as a script of pandas, NumPy and SciPy, where these are installed. */
function timeScript(csv: string, importedS: number): void {
  const python = ['/usr/bin/python3', 'python3'].find(
    (name) => spawnSync(name, ['-c', 'import numpy, pandas, scipy']).status === 0,
  );
  if (python === undefined) {
    console.log('no python3 with pandas, NumPy and SciPy here: the script was not run');
    return;
  }
  let said = '';
  const scriptS = medianS(3, () => {
    const { status, stdout, stderr } = spawnSync(python, [join(PROJECT, 'tests/speed/slopes.py'), csv], {
      encoding: 'utf8',
    });
    if (status !== 0) throw new Error(`slopes.py ended with ${status}: ${stderr}`);
    said = stdout.trim();
  });
  console.log(`the script says: ${said}`);
  tell('the same job as a Python script', scriptS, 's');
  tell('  against the import', scriptS / importedS, 'times');
}
