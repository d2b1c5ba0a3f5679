import { useEffect, useState } from 'preact/hooks';
import type { PumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { PumpDrawing } from './PumpDrawing.tsx';

/** Seconds of a turn: slow enough to see how the teeth take turns. */
const TURN_S = 24;

/** Pictures a second: a hand-turned pump moves no smoother. */
const FRAME_MS = 40;

const FULL_TURN = 360;

function wantsStillness(): boolean {
  return matchMedia('(prefers-reduced-motion: reduce)').matches;
}

/** The drawing, turned by hand with a slider, or slowly by itself where that is asked for and motion is welcome. */
export function TurningDrawing({ pump }: { readonly pump: PumpRecord }) {
  const [degrees, setDegrees] = useState(0);
  const [isTurning, setTurning] = useState(false);
  useEffect(() => {
    if (!isTurning) return;
    let drawnAtMs = performance.now();
    let asked = requestAnimationFrame(function turn(nowMs) {
      if (nowMs - drawnAtMs >= FRAME_MS) {
        const byDegrees = ((nowMs - drawnAtMs) / 1e3 / TURN_S) * FULL_TURN;
        drawnAtMs = nowMs;
        setDegrees((before) => (before + byDegrees) % FULL_TURN);
      }
      asked = requestAnimationFrame(turn);
    });
    return () => cancelAnimationFrame(asked);
  }, [isTurning]);
  // Seen on the shaft end; the drawing counts angles against the clock.
  const sense = pump.rotation === 'clockwise' ? -1 : 1;
  const canTurn = pump.geometry.kind !== 'asStated' && pump.geometry.kind !== 'turnedByHand';
  return (
    <div>
      <PumpDrawing pump={pump} shaftAngleRad={(sense * degrees * Math.PI) / 180} />
      {canTurn && pump.geometry.kind !== 'plainThread' && (
        <div class="turning">
          <label class="field">
            <span>turn the shaft, {pump.rotation}</span>
            <input
              type="range"
              min="0"
              max={FULL_TURN}
              step="1"
              value={degrees}
              aria-valuetext={`${Math.round(degrees)} degrees`}
              onInput={(event) => {
                setTurning(false);
                setDegrees(Number(event.currentTarget.value));
              }}
            />
          </label>
          {!wantsStillness() && (
            <button type="button" aria-pressed={isTurning} onClick={() => setTurning(!isTurning)}>
              {isTurning ? 'Stand still' : 'Turn slowly'}
            </button>
          )}
        </div>
      )}
    </div>
  );
}
