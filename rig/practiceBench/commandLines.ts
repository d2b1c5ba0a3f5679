/** Longer than any command: what runs on without a line end is cut here and answered as one that was not understood. */
const LONGEST_COMMAND = 128;

/**
 * Cuts what arrives on the line into commands, whatever the pieces.
 *
 * @param onCommand - called with each line that is not blank, without its end [-]
 * @returns a function that takes the next piece [-]
 */
export function createCommandLines(onCommand: (text: string) => void): (piece: string) => void {
  let rest = '';
  return (piece) => {
    const lines = `${rest}${piece}`.split(/\r\n|\n|\r/);
    rest = lines.pop() ?? '';
    if (rest.length > LONGEST_COMMAND) {
      lines.push(rest);
      rest = '';
    }
    for (const line of lines) if (line.trim() !== '') onCommand(line.slice(0, LONGEST_COMMAND));
  };
}
