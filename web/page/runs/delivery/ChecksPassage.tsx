import type { Checks } from '../../../../analysis/result.ts';
import { Entry } from '../../shell/Entry.tsx';

/** In the order in which a fitter would suspect them. */
const CHECKS: readonly (readonly [keyof Checks, string])[] = [
  ['filling', 'filling'],
  ['air', 'air in the oil'],
  ['relief', 'relief valve'],
  ['drift', 'drift'],
  ['hysteresis', 'hysteresis'],
];

/** What looks like slip and is none: a sign stands out, and 'cannot tell' says what would tell. */
export function ChecksPassage({ checks }: { readonly checks: Checks }) {
  return (
    <Entry head="What is not slip">
      <dl class="checks" data-testid="checks">
        {CHECKS.map(([name, words]) => {
          const { read, text } = checks[name];
          return (
            <div key={name} class={read === 'sign' ? 'look-here' : ''}>
              <dt>
                {words}: <strong>{read === 'sign' ? 'a sign of it' : read}</strong>
              </dt>
              <dd>{text}</dd>
            </div>
          );
        })}
      </dl>
    </Entry>
  );
}
