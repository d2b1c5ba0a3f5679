import { request as httpRequest, type Server } from 'node:http';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { ApiRefusal } from '../../../web/api.ts';
import { createApp } from '../../../web/server/createApp.ts';
import { addressOf, closeServer, listen } from '../../../web/server/listen.ts';
import { recordedRun } from '../../support/recordedRun.ts';
import { type TestDependencies, testDependencies } from '../../support/webDependencies.ts';

const runReadings = z.object({
  elapsedS: z.array(z.number()),
  channels: z.record(z.string(), z.array(z.number().nullable())),
});
const filedCertificate = z.object({ number: z.string() });
const apiRefusal = z.strictObject({ code: z.string(), message: z.string() });

async function refusalIn(response: Response): Promise<ApiRefusal> {
  return apiRefusal.parse(await response.json());
}

let server: Server;
let base: string;
let dependencies: TestDependencies;
const dryLift = recordedRun('dryLift', 'healthy');

beforeAll(async () => {
  dependencies = testDependencies([dryLift], import.meta.dirname);
  server = await listen(createApp(dependencies), 0);
  base = addressOf(server);
});

afterAll(() => closeServer(server));

function post(path: string, body: unknown, type = 'application/json'): Promise<Response> {
  return fetch(base + path, { method: 'POST', headers: { 'content-type': type }, body: JSON.stringify(body) });
}

/** fetch sets the Host header itself; a rebinding page cannot, and neither can this test through fetch. */
function getWithHost(host: string): Promise<{ readonly status: number; readonly body: string }> {
  return new Promise((resolve, reject) => {
    const { port } = new URL(base);
    const request = httpRequest({ host: '127.0.0.1', port, path: '/api/state', headers: { host } }, (response) => {
      let body = '';
      response.on('data', (piece) => {
        body += String(piece);
      });
      response.on('end', () => resolve({ status: response.statusCode ?? 0, body }));
    });
    request.once('error', reject);
    request.end();
  });
}

describe('the server, to strangers', () => {
  it('refuses a foreign Host header: a page that had its name pointed here gets nothing', async () => {
    const { status, body } = await getWithHost('bench.example.com');
    expect(status).toBe(403);
    expect(JSON.parse(body)).toMatchObject({ code: 'FOREIGN_HOST' });
    expect((await getWithHost('127.0.0.1.example.com:4176')).status).toBe(403);
  });

  it('answers to this machine by each of its own names', async () => {
    for (const host of ['127.0.0.1:4176', 'localhost', '[::1]:4176', 'LOCALHOST:80']) {
      expect((await getWithHost(host)).status, host).toBe(200);
    }
  });

  it('refuses a POST that is not JSON, as a foreign form would send it, and tells the session nothing', async () => {
    const before = dependencies.session.told.length;
    for (const type of ['text/plain', 'application/x-www-form-urlencoded']) {
      const response = await post('/api/practice', { command: 'speed 900' }, type);
      expect(response.status).toBe(415);
      expect(await response.json()).toMatchObject({ code: 'NOT_JSON' });
    }
    expect(dependencies.session.told.length).toBe(before);
  });

  it('lets the page load nothing from elsewhere', async () => {
    const policy = (await fetch(`${base}/api/state`)).headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'self'");
    expect(policy).not.toContain('upgrade-insecure-requests');
    expect(policy).not.toContain('https:');
  });
});

describe('refusals', () => {
  it('are JSON with code and message for a place that is none', async () => {
    const response = await fetch(`${base}/api/nothing`);
    expect(response.status).toBe(404);
    expect(await response.json()).toEqual({ code: 'NOT_FOUND', message: 'Nothing is kept at /api/nothing.' });
  });

  it('name the run that is not there', async () => {
    const response = await fetch(`${base}/api/runs/never-recorded`);
    expect(response.status).toBe(404);
    expect(await response.json()).toEqual({ code: 'UNKNOWN_RUN', message: 'No run is called never-recorded.' });
  });

  it('name the field that is wrong', async () => {
    const response = await post('/api/runs', { kind: 'delivery', pumpId: 'Not An Id' });
    expect(response.status).toBe(400);
    const refusal = await refusalIn(response);
    expect(refusal.code).toBe('BAD_REQUEST');
    expect(refusal.message).toContain('pumpId: lower case letters, digits and hyphens');
    expect(refusal.message).toContain('operator');
  });

  it('meet a body that is no JSON and one that is too long', async () => {
    const headers = { 'content-type': 'application/json' };
    const torn = await fetch(`${base}/api/practice`, { method: 'POST', headers, body: '{"command": "spe' });
    expect([torn.status, (await refusalIn(torn)).code]).toEqual([400, 'BAD_REQUEST']);
    const long = await post('/api/practice', { command: 'x'.repeat(300_000) });
    expect([long.status, (await refusalIn(long)).code]).toEqual([413, 'BAD_REQUEST']);
  });

  it('pass on what the session refuses, by its code', async () => {
    const response = await post('/api/runs/open/stop', { reason: 'done' });
    expect(response.status).toBe(409);
    expect(await response.json()).toMatchObject({ code: 'NO_OPEN_RUN' });
  });

  it('keep a second line out of what is sent to the practice bench', async () => {
    expect((await post('/api/practice', { command: 'speed 900\r\ndry' })).status).toBe(400);
  });
});

describe('the routes', () => {
  it('give the state, the pumps, the defaults, the runs and a run', async () => {
    const get = async (path: string) => (await fetch(base + path)).json();
    expect(await get('/api/state')).toMatchObject({ benchId: 'practice-bench', openRun: null });
    expect(await get('/api/pumps')).toMatchObject([{ id: 'dredger-feed-pump' }, { id: 'dredger-return-pump' }]);
    expect(await get('/api/defaults')).toMatchObject({ operator: 'A. Fitter' });
    expect(await get('/api/runs')).toMatchObject([{ id: dryLift.run.id, ending: 'completed' }]);
    expect(await get(`/api/runs/${dryLift.run.id}`)).toMatchObject({ result: { runId: dryLift.run.id } });
  });

  it('find by criteria, empty ones left out, and refuse one that is none by its name', async () => {
    const found = await fetch(`${base}/api/find?words=bearing%20feed&type=&from=2026-01-01&page=1&pageSize=10`);
    expect(await found.json()).toMatchObject({ total: 1, page: 1, pageSize: 10, found: [{ what: 'run' }] });
    for (const wrong of ['page=0', 'pageSize=1e9', 'type=teapot', 'from=yesterday', 'colour=red']) {
      const refused = await fetch(`${base}/api/find?${wrong}`);
      expect(refused.status, wrong).toBe(400);
      expect((await refusalIn(refused)).message).toContain(wrong.split('=')[0]);
    }
  });

  it('give a stretch for so many dots, and refuse one that ends before it begins', async () => {
    const address = `${base}/api/runs/${dryLift.run.id}/window`;
    const window: unknown = await (await fetch(`${address}?from=1&to=3&dots=10`)).json();
    // 2 s at 50 readings a second, both ends within; two a dot are kept
    expect(window).toMatchObject({ fromS: 1, toS: 3, rowCount: 101, isWhole: false });
    expect(window).toHaveProperty('channels.suctionPressure.values.12');
    const refused = await fetch(`${address}?from=3&to=1&dots=10`);
    expect(refused.status).toBe(400);
    expect(await refused.json()).toMatchObject({ code: 'BAD_REQUEST' });
  });

  it('give readings thinned to 4,000 rows at the most, every channel as long as the time', async () => {
    const readings = runReadings.parse(await (await fetch(`${base}/api/runs/${dryLift.run.id}/readings`)).json());
    expect(readings.elapsedS.length).toBeLessThanOrEqual(4_000);
    expect(readings.elapsedS.length).toBeGreaterThan(100);
    expect(Object.keys(readings.channels).sort()).toEqual(Object.keys(dryLift.decoded.readings.channels).sort());
    for (const values of Object.values(readings.channels)) expect(values).toHaveLength(readings.elapsedS.length);
  });

  it('take a stretch out of the fit with person and reason, and refuse it without, or for a run that is not there', async () => {
    const path = `/api/runs/${dryLift.run.id}/exclusions`;
    const line = { person: 'A. Fitter', fromS: 1, toS: 2, isExcluded: true, reason: 'valve touched' };
    const taken = await post(path, line);
    expect(taken.status).toBe(201);
    expect(await taken.json()).toMatchObject({ run: { id: dryLift.run.id }, result: { exclusions: [line] } });
    for (const missing of [{ reason: ' ' }, { person: '' }, { toS: 0 }]) {
      const refused = await post(path, { ...line, ...missing });
      expect([refused.status, (await refusalIn(refused)).code]).toEqual([400, 'BAD_REQUEST']);
    }
    expect((await post('/api/runs/never-recorded/exclusions', line)).status).toBe(404);
  });

  it('take a zero check with the air and the oil it is to be read by, and refuse one without', async () => {
    const taken = await post('/api/zero-check', { barometerPa: 101_325, oilDensityKgPerM3: 875 });
    expect(taken.status).toBe(200);
    expect(await taken.json()).toMatchObject({ zeroCheck: { channels: [{ channel: 'flow' }, {}] } });
    expect((await post('/api/zero-check', { oilDensityKgPerM3: 875 })).status).toBe(400);
  });

  it('pass marks and practice commands on', async () => {
    expect((await post('/api/runs/open/marks', { text: 'vented' })).status).toBe(204);
    expect((await post('/api/practice', { command: 'pressure 3.5' })).status).toBe(204);
    expect(dependencies.session.told.slice(-2)).toEqual(['mark vented', 'practice pressure 3.5']);
  });

  it('file a certificate, list it, and give its PDF byte by byte even from a folder whose name begins with a dot', async () => {
    const filed = await post('/api/certificates', { runIds: [dryLift.run.id], signatory: 'A. Fitter' });
    expect(filed.status).toBe(201);
    const { number } = filedCertificate.parse(await filed.json());
    const listed = await (await fetch(`${base}/api/certificates/${number}`)).json();
    expect(listed).toMatchObject({ number, isSpecimen: true, standing: 'issued' });
    const other = await fetch(`${base}/api/certificates/1999-0001`);
    expect([other.status, await other.json()]).toMatchObject([404, { message: expect.stringContaining('1999-0001') }]);
    const pdf = await fetch(`${base}/api/certificates/${number}.pdf`);
    expect(pdf.headers.get('content-type')).toBe('application/pdf');
    expect((await pdf.text()).startsWith('%PDF-1.7')).toBe(true);
  });

  it('withdraw a certificate with a reason, refuse one without, and one that is not filed', async () => {
    const filed = await post('/api/certificates', { runIds: [dryLift.run.id], signatory: 'A. Fitter' });
    const { number } = filedCertificate.parse(await filed.json());
    const path = `/api/certificates/${number}/withdrawal`;
    expect((await post(path, { signatory: 'A. Fitter', reason: ' ' })).status).toBe(400);
    const withdrawn = await post(path, { signatory: 'A. Fitter', reason: 'wrong pump' });
    expect(withdrawn.status).toBe(201);
    expect(await withdrawn.json()).toMatchObject({ number, standing: 'withdrawn' });
    const unknown = await post('/api/certificates/1999-0001/withdrawal', { signatory: 'A. Fitter', reason: 'x' });
    expect(unknown.status).toBe(404);
  });

  it('verify files that are dropped, larger than any other request may be, and refuse none at all', async () => {
    const file = { name: 'holiday.pdf', base64: Buffer.alloc(600_000, 'x').toString('base64') };
    const verified = await post('/api/verify', { files: [file] });
    expect(await verified.json()).toMatchObject([{ path: 'holiday.pdf', state: 'not a certificate' }]);
    expect((await post('/api/verify', { files: [] })).status).toBe(400);
    expect((await post('/api/verify', { files: [{ name: 'x.pdf', base64: '*' }] })).status).toBe(400);
  });
});

describe('the live stream', () => {
  it('gives the state at once, then states and readings as they come, and lets go when the reader leaves', async () => {
    const { session } = dependencies;
    const leaving = new AbortController();
    const response = await fetch(`${base}/api/live`, { signal: leaving.signal });
    expect(response.headers.get('content-type')).toContain('text/event-stream');
    expect(response.headers.get('content-encoding')).toBeNull();
    const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader();
    if (reader === undefined) throw new Error('the stream has no body');
    let heard = '';
    const hear = async (text: string): Promise<void> => {
      while (!heard.includes(text)) {
        const { value, done } = await reader.read();
        if (done) throw new Error(`the stream ended before ${text} came`);
        heard += value;
      }
    };
    await hear('event:state');
    await hear('practice-bench');
    session.setState({ linesPerS: 49.75 });
    await hear('49.75');
    session.pushReadings([{ atS: 1.5, values: { flow: 1e-4, speed: null } }]);
    await hear('event:readings');
    await hear('[{"atS":1.5,"values":{"flow":0.0001,"speed":null}}]');
    expect(session.listenerCount).toBe(2);
    leaving.abort();
    await expect.poll(() => session.listenerCount).toBe(0);
  });
});

describe('listening', () => {
  it('answers a taken port by the next free one, on this machine alone', async () => {
    const taken = Number(new URL(base).port);
    const second = await listen(createApp(dependencies), taken);
    expect(Number(new URL(addressOf(second)).port)).toBeGreaterThan(taken);
    expect(second.address()).toMatchObject({ address: '127.0.0.1' });
    await closeServer(second);
  });
});
