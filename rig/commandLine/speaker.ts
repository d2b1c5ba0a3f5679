/**
 * What a command says. With --json stdout carries one JSON document and nothing else; all other words go to stderr.
 */
export type Speaker = {
  /** The command's result: its JSON document, or its text for people. */
  readonly result: (document: unknown, text: string) => void;
  /** A word on the way. */
  readonly say: (text: string) => void;
  /** Progress of long work: one line overwritten, and only where a person watches. */
  readonly progress: (text: string) => void;
};

export type Output = Pick<NodeJS.WriteStream, 'write'> & { readonly isTTY?: boolean };

export function createSpeaker(
  isJson: boolean,
  stdout: Output = process.stdout,
  stderr: Output = process.stderr,
): Speaker {
  let isProgressShown = false;
  const endProgress = (): void => {
    if (isProgressShown) stderr.write('\n');
    isProgressShown = false;
  };
  return {
    result: (document, text) => {
      endProgress();
      stdout.write(isJson ? `${JSON.stringify(document, null, 2)}\n` : `${text}\n`);
    },
    say: (text) => {
      endProgress();
      stderr.write(`${text}\n`);
    },
    progress: (text) => {
      if (stderr.isTTY !== true) return;
      isProgressShown = true;
      stderr.write(`\r\u001b[K${text}`);
    },
  };
}
