import compression from 'compression';
import express, { type Express } from 'express';
import helmet from 'helmet';
import { apiRoutes } from './apiRoutes.ts';
import type { WebDependencies } from './dependencies.ts';
import { refuseForeignHosts, refuseOtherThanJson } from './gatekeeper.ts';
import { answerWithRefusal, RequestError } from './refusals.ts';
import { MOST_DROPPED_BYTES } from './requests.ts';

/** The whole web side over its dependencies; it listens nowhere by itself. */
export function createApp(dependencies: WebDependencies): Express {
  const app = express();
  app.use(refuseForeignHosts);
  app.use(
    helmet({
      // Plain http on this machine: an upgrade to https would find nobody there.
      strictTransportSecurity: false,
      contentSecurityPolicy: {
        useDefaults: true,
        directives: { upgradeInsecureRequests: null, styleSrc: ["'self'"], fontSrc: ["'self'"] },
      },
    }),
  );
  // The page's own files only. An answer would take longer to be compressed than it takes from here to a browser on this machine,
  // and an event stream would wait for a buffer to fill.
  app.use(
    compression({
      filter: (request, response) => !request.originalUrl.startsWith('/api/') && compression.filter(request, response),
    }),
  );
  app.use(refuseOtherThanJson);
  app.use('/api/verify', express.json({ limit: MOST_DROPPED_BYTES }));
  app.use(express.json({ limit: '256kb' }));
  app.use('/api', apiRoutes(dependencies));
  app.use(express.static(dependencies.pageFolder));
  app.use((request) => {
    throw new RequestError(404, 'NOT_FOUND', `Nothing is kept at ${request.path}.`);
  });
  app.use(answerWithRefusal);
  return app;
}
