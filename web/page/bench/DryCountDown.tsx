/** Seconds that a dry pump may still turn, large enough for the far side of the bench. */
export function DryCountDown({ turnedS, longestS }: { readonly turnedS: number; readonly longestS: number }) {
  const leftS = Math.max(0, longestS - turnedS);
  const isNearlyOver = leftS < longestS / 3;
  return (
    <div class={isNearlyOver ? 'count-down nearly-over' : 'count-down'} data-testid="count-down">
      <p>
        <span class="reading-value">{Math.ceil(leftS)}</span>{' '}
        <span class="lead">
          s of {longestS} s left to turn dry{isNearlyOver && leftS > 0 && ' ▲ watch the clock'}
          {leftS === 0 && ' ▲ stop the motor'}
        </span>
      </p>
      <progress max={longestS} value={Math.min(longestS, turnedS)} aria-label="dry turning, of what is permitted" />
    </div>
  );
}
