import type { NextFunction, Request, Response } from 'express';
import { RequestError } from './refusals.ts';

const LOCAL_NAMES: ReadonlySet<string> = new Set(['127.0.0.1', 'localhost', '[::1]']);

/** The name in a Host header, without its port. */
function hostName(header: string): string {
  return header.replace(/:\d+$/, '').toLowerCase();
}

/**
 * Lets in only requests that call this machine by its own name. A foreign page that points its name at 127.0.0.1
 * (DNS rebinding) still sends that name.
 */
export function refuseForeignHosts(request: Request, _response: Response, next: NextFunction): void {
  const host = request.headers.host ?? '';
  if (!LOCAL_NAMES.has(hostName(host))) {
    throw new RequestError(
      403,
      'FOREIGN_HOST',
      `This server answers to 127.0.0.1 and localhost only, not to ${JSON.stringify(host)}.`,
    );
  }
  next();
}

/** A foreign page can post a form or plain text to here unasked, but never JSON: the browser would ask first. */
export function refuseOtherThanJson(request: Request, _response: Response, next: NextFunction): void {
  if (request.method === 'POST' && !request.is('application/json')) {
    throw new RequestError(415, 'NOT_JSON', 'A POST here carries JSON: content-type application/json.');
  }
  next();
}
