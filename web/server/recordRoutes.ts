import type { Router } from 'express';
import type { WebDependencies } from './dependencies.ts';
import { calibrationRequest, looseRecord, testDayRequest } from './requests.ts';

/** Records that a person writes: pumps, strip sheets, calibrations. They are read by their schemas. */
export function recordRoutes(api: Router, { session, archive }: WebDependencies): void {
  api.get('/bench', (_request, response) => {
    response.json(session.bench());
  });
  api.post('/bench/calibrations', async (request, response) => {
    response.status(201).json(await session.calibrate(calibrationRequest.parse(request.body)));
  });
  api.post('/strips', async (request, response) => {
    response.status(201).json(await archive.saveStrip(looseRecord.parse(request.body)));
  });
  api.get('/pumps', async (_request, response) => {
    response.json(await archive.listPumps());
  });
  api.post('/pumps', async (request, response) => {
    response.status(201).json(await archive.savePump(looseRecord.parse(request.body)));
  });
  api.get('/pumps/:id/history', async (request, response) => {
    response.json(await archive.readPumpHistory(request.params.id));
  });
  api.get('/pumps/:id/test-day', async (request, response) => {
    response.json(await archive.readTestDay(request.params.id));
  });
  api.post('/pumps/:id/test-day', async (request, response) => {
    response.status(201).json(await archive.addToTestDay(request.params.id, testDayRequest.parse(request.body)));
  });
}
