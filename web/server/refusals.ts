import type { NextFunction, Request, Response } from 'express';
import { z } from 'zod';
import { describeIssues } from '../../analysis/records/fields.ts';
import { BenchError } from '../../rig/errors.ts';
import type { ApiRefusal } from '../api.ts';

/** A request that the server itself refuses. */
export class RequestError extends BenchError {
  constructor(
    readonly status: number,
    override readonly code: string,
    message: string,
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}

function isHttpError(error: unknown): error is Error & { readonly status: number } {
  return error instanceof Error && 'status' in error && typeof error.status === 'number';
}

/** HTTP status and body for anything thrown on the way to an answer. */
function refusalOf(error: unknown): { readonly status: number; readonly body: ApiRefusal } {
  if (error instanceof RequestError) {
    return { status: error.status, body: { code: error.code, message: error.message } };
  }
  if (error instanceof BenchError) {
    const status = error.code.startsWith('UNKNOWN_') ? 404 : 409;
    return { status, body: { code: error.code, message: error.message } };
  }
  if (error instanceof z.ZodError) {
    return { status: 400, body: { code: 'BAD_REQUEST', message: describeIssues(error) } };
  }
  if (isHttpError(error) && error.status >= 400 && error.status < 500) {
    return { status: error.status, body: { code: 'BAD_REQUEST', message: error.message } };
  }
  return {
    status: 500,
    body: { code: 'INTERNAL', message: 'The program failed while answering. The reason stands in its terminal.' },
  };
}

/** Last in the chain: every refusal leaves as JSON; what nobody expected goes to the terminal too. */
export function answerWithRefusal(error: unknown, _request: Request, response: Response, next: NextFunction): void {
  if (response.headersSent) {
    next(error);
    return;
  }
  const { status, body } = refusalOf(error);
  if (status === 500) console.error(error);
  response.status(status).json(body);
}
