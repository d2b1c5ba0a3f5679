/** By what is drawn: a newer drawing of the same thing takes the place, and the turn, of the one that waits. */
const waiting = new Map<object, () => void>();
let isAsked = false;

/**
 * One drawing a frame, so that nothing on the page stutters for them. They are counted, not timed: uPlot draws only after its
 * caller is done.
 */
function drawNext(): void {
  isAsked = false;
  for (const [what, draw] of waiting) {
    waiting.delete(what);
    draw();
    break;
  }
  askForFrame();
}

function askForFrame(): void {
  if (isAsked || waiting.size === 0) return;
  isAsked = true;
  requestAnimationFrame(drawNext);
}

/**
 * Draws something in one of the next frames, one thing a frame.
 *
 * @returns a function that takes it back, for what is no longer on the page; its turn is kept for what follows it
 */
export function drawInTurn(what: object, draw: () => void): () => void {
  waiting.set(what, draw);
  // Not in the next one: that one has the page itself to show, whose news this is.
  requestAnimationFrame(askForFrame);
  return () => {
    if (waiting.has(what)) waiting.set(what, () => undefined);
  };
}
