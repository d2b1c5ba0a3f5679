import type { Router } from 'express';
import type { FilingCabinet } from './dependencies.ts';
import { looseRecord, testDayRequest } from './requests.ts';

/** Records that a person writes: pumps, strip sheets. The archive reads them by their schemas. */
export function recordRoutes(api: Router, archive: FilingCabinet): void {
  api.get('/pumps', async (_request, response) => {
    response.json(await archive.listPumps());
  });
  api.post('/pumps', async (request, response) => {
    response.status(201).json(await archive.savePump(looseRecord.parse(request.body)));
  });
  api.get('/pumps/:id/test-day', async (request, response) => {
    response.json(await archive.readTestDay(request.params.id));
  });
  api.post('/pumps/:id/test-day', async (request, response) => {
    response.status(201).json(await archive.addToTestDay(request.params.id, testDayRequest.parse(request.body)));
  });
}
