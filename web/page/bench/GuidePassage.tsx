import type { GuideState } from '../../../analysis/guide/guideState.ts';

/** What to do next, and how far the run has come. */
export function GuidePassage({ guide }: { readonly guide: GuideState }) {
  const { stepsAre, stepCount, stepsDone, sentence, isFinished } = guide;
  return (
    <div data-testid="guide">
      <p class="guide-sentence" role="status">
        {isFinished ? sentence : `next: ${sentence}`}
      </p>
      {stepCount > 1 && (
        <ol class="dots" aria-hidden="true">
          {Array.from({ length: stepCount }, (_, step) => (
            <li key={step} class={step < stepsDone ? 'taken' : ''} />
          ))}
        </ol>
      )}
      <p data-testid="points-taken">
        {stepsDone} of {stepCount} {stepsAre} {stepsAre === 'points' ? 'taken' : 'over'}
      </p>
    </div>
  );
}
