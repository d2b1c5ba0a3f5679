import { keptSwitch } from '../shell/kept.ts';
import { address } from '../shell/route.ts';

const isShown = keptSwitch('first-visit', 'on');

/** The way through a first visit, until it is put away. */
export function FirstVisit({ isPractice }: { readonly isPractice: boolean }) {
  if (!isPractice || isShown.value === 'off') return null;
  return (
    <aside class="first-visit" aria-label="First visit" data-testid="first-visit">
      <p>
        <strong>First time here?</strong> The practice bench is a model: nothing can break. From nothing to a
        certificate:
      </p>
      <ol>
        <li>
          <a href={address.newPump}>Write a record for your own pump</a>, or take one that is there.
        </li>
        <li>Below, under Start a run: choose the pump, say who you are, confirm the cautions, start recording.</li>
        <li>The practice bench steps itself. When all points are taken the run opens with its numbers.</li>
        <li>At the end of that page, file a certificate. It says SPECIMEN, since no real pump ran.</li>
      </ol>
      <button
        type="button"
        class="quiet"
        onClick={() => {
          isShown.value = 'off';
        }}
      >
        put this away
      </button>
    </aside>
  );
}
