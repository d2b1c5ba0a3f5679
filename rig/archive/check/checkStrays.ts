import { basename } from 'node:path';
import type { Findings } from './flaw.ts';

/** A file that has no place where it lies. */
export function noteStray(path: string, findings: Findings): void {
  const name = basename(path);
  findings.note(
    path,
    name.startsWith('.') && name.endsWith('.part')
      ? 'was being written when a program was killed; `archive rebuild` clears it away'
      : 'is no file of an archive',
  );
}
