import type { Router } from 'express';
import type { FilingCabinet } from './dependencies.ts';
import { looseRecord } from './requests.ts';

/** Records that a person writes: pumps, strip sheets. The archive reads them by their schemas. */
export function recordRoutes(api: Router, archive: FilingCabinet): void {
  api.get('/pumps', async (_request, response) => {
    response.json(await archive.listPumps());
  });
  api.post('/pumps', async (request, response) => {
    response.status(201).json(await archive.savePump(looseRecord.parse(request.body)));
  });
}
