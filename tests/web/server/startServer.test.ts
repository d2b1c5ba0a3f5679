import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { StartOptions } from '../../../web/server/startOptions.ts';
import { startServer } from '../../../web/server/startServer.ts';

const folder = mkdtempSync(join(tmpdir(), 'slipwright-start-'));
const pageFolder = join(folder, 'page');
const options: StartOptions = {
  archive: join(folder, 'archive'),
  port: 0,
  scenario: 'healthy',
  seed: 5,
  speedUp: 20,
};

function makePage(): void {
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>page</title>');
}

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('startServer', () => {
  it('says what to run where the page is not built', async () => {
    await expect(startServer(options, pageFolder)).rejects.toMatchObject({ code: 'NO_PAGE' });
  });

  it('names the folder that cannot be an archive', async () => {
    makePage();
    const archive = join(folder, 'index.html', 'archive'); // under a file, not a folder
    await expect(startServer({ ...options, archive }, folder)).rejects.toMatchObject({ code: 'ARCHIVE' });
  });

  it('names the port of a real bench that is not there, and ends what it had started', async () => {
    makePage();
    const bench = new URL('../../../samples/benches/practice-bench.json', import.meta.url).pathname;
    const portPath = join(folder, 'no-such-port');
    await expect(startServer({ ...options, bench, portPath }, folder)).rejects.toThrow(portPath);
  });

  it('puts pump records into the archive by their files, and names the one that is wrong', async () => {
    makePage();
    const sample = readFileSync(new URL('../../../samples/pumps/dredger-feed-pump.json', import.meta.url), 'utf8');
    const ours = join(folder, 'our-pump.json');
    writeFileSync(ours, sample.replace('"dredger-feed-pump"', '"our-pump"'));
    const running = await startServer({ ...options, archive: join(folder, 'with-pump'), pump: [ours] }, folder);
    const pumps: unknown = await (await fetch(`${running.address}/api/pumps`)).json();
    expect(pumps).toEqual(expect.arrayContaining([expect.objectContaining({ id: 'our-pump' })]));
    await running.close();
    const wrong = join(folder, 'wrong-pump.json');
    writeFileSync(wrong, sample.replace('"serialNumber"', '"serialNummer"'));
    await expect(startServer({ ...options, pump: [wrong] }, folder)).rejects.toThrow(/wrong-pump\.json.*serialNumber/s);
  });

  it('starts the practice bench, serves what it reads and its defaults, and ends everything', async () => {
    makePage();
    const running = await startServer(options, folder);
    const get = async (path: string): Promise<unknown> => (await fetch(running.address + path)).json();
    await expect.poll(() => get('/api/state'), { timeout: 20_000 }).toMatchObject({ practice: { speedUp: 20 } });
    expect(await get('/api/pumps')).toMatchObject([{ id: 'dredger-feed-pump' }, { id: 'dredger-return-pump' }]);
    expect(await get('/api/defaults')).toMatchObject({ origin: 'practice bench' });
    expect(await get('/api/runs/never-recorded')).toMatchObject({ code: 'UNKNOWN_RUN' });
    expect(await get('/api/certificates/SW-0.pdf')).toMatchObject({ code: 'UNKNOWN_CERTIFICATE' });
    await running.close();
    await running.close();
    await expect(fetch(running.address)).rejects.toThrow();
  });
});
