import { useEffect, useRef } from 'preact/hooks';
import type { BenchLimit } from '../../../analysis/guide/benchLimits.ts';
import type { BenchWarning } from '../../../analysis/guide/benchWatch.ts';
import { channelLabel, shownText, unitWords } from '../words/channelDisplay.ts';
import { clockFace } from '../words/moments.ts';
import { warningSound } from './benchSwitches.ts';
import { soundTone } from './warningTone.ts';

/** 'at most 12.0 bar(g)' */
export function limitWords({ channel, atMost, atLeast }: BenchLimit, barometerPa: number): string {
  const bound = atMost ?? atLeast;
  return `${atMost === null ? 'at least' : 'at most'} ${shownText(channel, bound, barometerPa)} ${unitWords(channel)}`;
}

function warningSentence({ limit, firstS, farthest, isNow }: BenchWarning, barometerPa: number): string {
  const { channel, atMost } = limit;
  const went = `${shownText(channel, farthest, barometerPa)} ${unitWords(channel)}`;
  const extreme = atMost === null ? 'lowest' : 'highest';
  const since = isNow ? `passed now, first at ${clockFace(firstS)}` : `was passed at ${clockFace(firstS)}, over now`;
  return `${channelLabel(channel)}: ${limitWords(limit, barometerPa)} is ${limit.whose}. It ${since}; ${extreme} ${went}.`;
}

/** Limits that were passed, in words and with a shape; a tone when one is passed anew. Never a safety device, and says so. */
export function Warnings(of: { readonly warnings: readonly BenchWarning[]; readonly barometerPa: number }) {
  const passedNow = of.warnings.filter(({ isNow }) => isNow).map(({ limit }) => limit.id);
  const before = useRef<readonly string[]>([]);
  const key = passedNow.join(' ');
  useEffect(() => {
    const isNew = passedNow.some((id) => !before.current.includes(id));
    before.current = passedNow;
    if (isNew && warningSound.value === 'on') soundTone();
  }, [key]);
  return (
    <div role="alert" data-testid="warnings">
      {of.warnings.length > 0 && (
        <div class={passedNow.length > 0 ? 'warning now' : 'warning'}>
          <p class="lead">
            <span aria-hidden="true">▲</span> {passedNow.length > 0 ? 'Look at the bench' : 'A limit was passed'}
          </p>
          <ul>
            {of.warnings.map((warning) => (
              <li key={warning.limit.id}>{warningSentence(warning, of.barometerPa)}</li>
            ))}
          </ul>
          <p>This program stops nothing and is no safety device: your hand at the bench does.</p>
        </div>
      )}
    </div>
  );
}
