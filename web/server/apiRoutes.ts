import { Router } from 'express';
import type { WebDependencies } from './dependencies.ts';
import { liveStream } from './liveStream.ts';
import { recordRoutes } from './recordRoutes.ts';
import {
  excludeHoldRequest,
  fileCertificateRequest,
  findRequest,
  markRequest,
  practiceRequest,
  startRunRequest,
  stopRunRequest,
  verifyRequest,
  windowRequest,
  withdrawCertificateRequest,
  zeroCheckRequest,
} from './requests.ts';

/** Everything under /api. What an id names is looked up by the archive alone; nothing is computed here. */
export function apiRoutes(dependencies: WebDependencies): Router {
  const { session, archive } = dependencies;
  const api = Router();

  api.get('/state', (_request, response) => {
    response.json(session.state());
  });
  api.get('/live', liveStream(dependencies));
  api.post('/practice', async (request, response) => {
    await session.commandPractice(practiceRequest.parse(request.body).command);
    response.status(204).end();
  });

  api.post('/zero-check', async (request, response) => {
    response.json(await session.takeZeroCheck(zeroCheckRequest.parse(request.body)));
  });

  api.get('/runs', async (_request, response) => {
    response.json(await archive.listRuns());
  });
  api.post('/runs', async (request, response) => {
    response.status(201).json(await session.startRun(startRunRequest.parse(request.body)));
  });
  api.post('/runs/open/stop', async (request, response) => {
    response.json(await session.stopRun(stopRunRequest.parse(request.body).reason));
  });
  api.post('/runs/open/marks', async (request, response) => {
    await session.mark(markRequest.parse(request.body).text);
    response.status(204).end();
  });
  api.get('/runs/:id', async (request, response) => {
    response.json(await archive.readRunView(request.params.id));
  });
  api.get('/runs/:id/record', async (request, response) => {
    response.json(await archive.readRunRecord(request.params.id));
  });
  api.post('/runs/:id/exclusions', async (request, response) => {
    response.status(201).json(await archive.excludeHold(request.params.id, excludeHoldRequest.parse(request.body)));
  });
  api.get('/runs/:id/dry-evidence', async (request, response) => {
    response.json(await archive.readDryEvidence(request.params.id));
  });
  api.get('/runs/:id/readings', async (request, response) => {
    response.json(await archive.readRunReadings(request.params.id));
  });
  api.get('/runs/:id/window', async (request, response) => {
    const { from, to, dots } = windowRequest.parse(request.query);
    response.json(await archive.readRunWindow(request.params.id, { fromS: from, toS: to ?? null, dots }));
  });

  recordRoutes(api, dependencies);
  api.get('/find', async (request, response) => {
    response.json(await archive.find(findRequest.parse(request.query)));
  });

  api.get('/defaults', async (_request, response) => {
    response.json(await archive.startDefaults());
  });

  api.post('/certificates', async (request, response) => {
    response.status(201).json(await archive.fileCertificate(fileCertificateRequest.parse(request.body)));
  });
  api.post('/certificates/:number/withdrawal', async (request, response) => {
    const wanted = withdrawCertificateRequest.parse(request.body);
    response.status(201).json(await archive.withdrawCertificate(request.params.number, wanted));
  });
  api.post('/verify', async (request, response) => {
    response.json(await archive.verifyFiles(verifyRequest.parse(request.body)));
  });
  api.get('/certificates/:number.tag.pdf', async (request, response) => {
    response.type('application/pdf').send(await archive.certificateTag(request.params.number));
  });
  api.get('/certificates/:number.pdf', async (request, response) => {
    const path = await archive.certificatePdfPath(request.params.number);
    // The archive may well lie in a folder whose name begins with a dot.
    response.type('application/pdf').sendFile(path, { dotfiles: 'allow', cacheControl: false });
  });
  api.get('/certificates/:number.json', async (request, response) => {
    const path = await archive.certificateJsonPath(request.params.number);
    response.type('application/json').sendFile(path, { dotfiles: 'allow', cacheControl: false });
  });
  api.get('/certificates/:number', async (request, response) => {
    response.json(await archive.listedCertificate(request.params.number));
  });
  return api;
}
