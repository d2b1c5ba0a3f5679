/**
 * A frame has room for so many drawings; the others wait for the next, so that nothing on the page stutters for them. They
 * are counted, not timed: uPlot draws only after its caller is done.
 */
const A_FRAME = 2;

/** By what is drawn: a newer drawing of the same thing takes the place of the one that waits. */
const waiting = new Map<object, () => void>();
let isAsked = false;

function drawSome(): void {
  isAsked = false;
  for (const [what, draw] of [...waiting].slice(0, A_FRAME)) {
    waiting.delete(what);
    draw();
  }
  askForFrame();
}

function askForFrame(): void {
  if (isAsked || waiting.size === 0) return;
  isAsked = true;
  requestAnimationFrame(drawSome);
}

/**
 * Draws something in one of the next frames, a few things a frame.
 *
 * @returns a function that takes it back, for what is no longer on the page
 */
export function drawInTurn(what: object, draw: () => void): () => void {
  waiting.set(what, draw);
  askForFrame();
  return () => {
    waiting.delete(what);
  };
}
