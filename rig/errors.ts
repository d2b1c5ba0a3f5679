/** The world is wrong (cable out, no pseudo-terminal, disk full): matched on `code`, never on the message. */
export abstract class BenchError extends Error {
  abstract readonly code: string;

  constructor(message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = new.target.name;
  }
}

/** What an unknown thrown thing has to say. */
export function messageOf(thrown: unknown): string {
  return thrown instanceof Error ? thrown.message : String(thrown);
}

/** The code of an operating system error ('ENOENT') or of one of ours; undefined for anything else. */
export function codeOf(thrown: unknown): string | undefined {
  if (!(thrown instanceof Error) || !('code' in thrown)) return undefined;
  return typeof thrown.code === 'string' ? thrown.code : undefined;
}
