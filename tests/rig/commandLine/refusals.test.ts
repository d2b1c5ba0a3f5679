import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runSlipwright } from '../../support/runSlipwright.ts';

const SAMPLES = fileURLToPath(new URL('../../../samples', import.meta.url));
const CONDITIONS = join(SAMPLES, 'conditions/practice-conditions.json');
const BENCH = join(SAMPLES, 'benches/practice-bench.json');
const PUMP = join(SAMPLES, 'pumps/dredger-feed-pump.json');

let folder: string;
let archive: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'slipwright-cli-'));
  archive = join(folder, 'archive');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** A sample changed at one place and written to a file of its own. */
function changedSample(path: string, name: string, change: (text: string) => string): string {
  const file = join(folder, name);
  const text = readFileSync(path, 'utf8');
  const changed = change(text);
  expect(changed).not.toBe(text);
  writeFileSync(file, changed);
  return file;
}

function csvRun(csv: string, pump = PUMP, bench = BENCH) {
  const file = join(folder, 'readings.csv');
  writeFileSync(file, csv);
  return runSlipwright([
    'import',
    file,
    '--archive',
    archive,
    '--pump',
    pump,
    '--bench',
    bench,
    '--conditions',
    CONDITIONS,
    '--operator',
    'invented',
    '--json',
  ]);
}

const HEADING =
  'elapsed [s],suctionPressure [bar(a)],deliveryPressure [bar(g)],flow [l/min],speed [r/min],oilTemperature [degC]';

/** Readings of a pump that is never held still: the speed climbs. */
function restlessCsv(): string {
  const rows = Array.from({ length: 400 }, (_, index) => `${index / 10},0.97,2,${10 + index / 50},${600 + index},45`);
  return [HEADING, ...rows].join('\n');
}

describe('the command line refuses, and says what was expected', () => {
  it('ends with 2 on a port that does not exist, naming it', async () => {
    const ended = await runSlipwright([
      'record',
      '--archive',
      archive,
      '--port',
      join(folder, 'no-port'),
      '--bench',
      BENCH,
      '--conditions',
      CONDITIONS,
      '--pump',
      PUMP,
      '--operator',
      'invented',
    ]);
    expect(ended.exitCode).toBe(2);
    expect(ended.stderr).toContain('no-port');
  });

  it('ends with 2 on a pump record with a negative clearance, naming file and field', async () => {
    const pump = changedSample(PUMP, 'negative.json', (text) =>
      text.replace(/("tipClearanceM": \{\s*"value": )[\d.e-]+/, '$1-0.00004'),
    );
    const ended = await csvRun(restlessCsv(), pump);
    expect(ended.exitCode).toBe(2);
    expect(ended.stderr).toContain('negative.json');
    expect(ended.stderr).toContain('geometry.tipClearanceM.value');
  });

  it('ends with 2 on a tip circle smaller than the pitch circle, naming both', async () => {
    const pump = changedSample(PUMP, 'small.json', (text) =>
      text.replace(/("tipDiameterM": \{\s*"value": )[\d.]+/, '$10.035'),
    );
    const ended = await csvRun(restlessCsv(), pump);
    expect(ended.exitCode).toBe(2);
    expect(ended.stderr).toContain('tip circle of 0.035 m is not larger than the running pitch circle of 0.036 m');
  });

  it('ends with 2 on a unit that no bench may have', async () => {
    const bench = changedSample(BENCH, 'unit.json', (text) => text.replace('"l/min"', '"furlong"'));
    const ended = await csvRun(restlessCsv(), PUMP, bench);
    expect(ended.exitCode).toBe(2);
    expect(ended.stderr).toContain('"furlong" is no unit of flow');
  });

  it('ends with 2 where the archive cannot be: a file stands in its place', async () => {
    writeFileSync(archive, 'not a folder');
    const ended = await runSlipwright(['analyse', '2026-01-01-0001', '--archive', archive]);
    expect(ended.exitCode).toBe(2);
    expect(ended.stderr).toContain(archive);
    expect(readFileSync(archive, 'utf8')).toBe('not a folder');
  });

  it('ends with 3 on a CSV that is torn, naming line and column, and files nothing', async () => {
    const ended = await csvRun(`${HEADING}\n0,0.97,2,10,600,45\n0.1,0.97,two,10,600,45\n`);
    expect(ended.exitCode).toBe(3);
    expect(ended.stderr).toMatch(/line 3/);
    expect(ended.stderr).toContain('deliveryPressure');
    const listed = await runSlipwright(['analyse', '2026-01-01-0001', '--archive', archive]);
    expect(listed.stderr).toContain('no such run');
  });

  it('converts another unit and refuses an unknown one by name', async () => {
    const inBarAbsolute = await csvRun(restlessCsv().replace('deliveryPressure [bar(g)]', 'deliveryPressure [psi(g)]'));
    expect(inBarAbsolute.exitCode).toBe(0);
    const unknown = await csvRun(restlessCsv().replace('flow [l/min]', 'flow [buckets]'));
    expect(unknown.exitCode).toBe(3);
    expect(unknown.stderr).toContain('buckets');
  });

  it('files a run without a single hold, and analyse ends with 3 and says what to do', async () => {
    const imported = await csvRun(restlessCsv());
    expect(imported.exitCode).toBe(0);
    const document: { closing: { runId: string } } = JSON.parse(imported.stdout);
    const ended = await runSlipwright(['analyse', document.closing.runId, '--archive', archive, '--json']);
    expect(ended.exitCode).toBe(3);
    expect(ended.stderr).toContain('NO_HOLDS');
    expect(JSON.parse(ended.stdout).delivery.holds).toEqual([]);
  });

  it('ends with 4 when a byte of a sealed journal was changed, naming the file', async () => {
    const imported = await csvRun(restlessCsv());
    const { runId }: { runId: string } = JSON.parse(imported.stdout).closing;
    const journal = join(archive, 'runs', runId, 'journal.csv');
    const kept = join(folder, 'kept.csv');
    cpSync(journal, kept);
    writeFileSync(journal, readFileSync(kept, 'utf8').replace('0.97', '0.98'));
    const ended = await runSlipwright(['analyse', runId, '--archive', archive]);
    expect(ended.exitCode).toBe(4);
    expect(ended.stderr).toContain('journal.csv');
  });

  it('ends with 2 on a certificate file that is not there', async () => {
    const ended = await runSlipwright(['verify', join(folder, 'no-such.pdf')]);
    expect(ended.exitCode).toBe(2);
    expect(ended.stderr).toContain('no-such.pdf');
  });

  it('ends with 2 on a pace that the practice bench does not have, naming its bounds', async () => {
    const ended = await runSlipwright(['practice', '--speed-up', '1000']);
    expect(ended.exitCode).toBe(2);
    expect(ended.stderr).toContain('from 0.1 to 100');
  });

  it('ends with 2 on a command or an option that does not exist', async () => {
    expect((await runSlipwright(['rotate'])).exitCode).toBe(2);
    expect((await runSlipwright(['record', '--pump', PUMP, '--operator', 'x', '--speed-up', 'fast'])).exitCode).toBe(2);
    expect((await runSlipwright(['record', '--archive', archive, '--pump', PUMP, '--operator', 'x'])).stderr).toContain(
      '--practice',
    );
  });

  it('ends with 2 where runs are to be repeated on a real bench: its pump is prepared anew before every start', async () => {
    const asked = ['record', '--archive', archive, '--pump', PUMP, '--operator', 'x', '--port', '/dev/null'];
    const ended = await runSlipwright([...asked, '--repeat', '5']);
    expect(ended.exitCode).toBe(2);
    expect(ended.stderr).toContain('--repeat goes with --practice');
  });
});

it('lists ports as one JSON document', async () => {
  const ended = await runSlipwright(['ports', '--json']);
  expect(ended.exitCode).toBe(0);
  expect(Array.isArray(JSON.parse(ended.stdout))).toBe(true);
});
