import { signal } from '@preact/signals';

/** Confirmed once since the page was opened; asked again on the next day's page. */
export const areCautionsConfirmed = signal(false);

const CAUTIONS: readonly string[] = [
  'A relief valve is fitted on the delivery side and set: this pump against a closed valve bursts what is weakest.',
  'Guards stand over shaft and coupling; nothing loose hangs near them.',
  'Hoses and their clamps are sound and rated for what the relief valve lets through.',
  'Eye protection is on. Never feel for a leak with the hand: a jet of oil goes through skin.',
  'The oil tray is in place and the floor is dry. Oil and casing may be hot.',
  'Local rules hold, and a qualified person is in charge of the bench.',
];

/** What must be so before a pump turns; confirmed by one tick. */
export function Cautions({ isMissed }: { readonly isMissed: boolean }) {
  return (
    <fieldset>
      <legend>Before the first start</legend>
      <ul>
        {CAUTIONS.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <p>This program watches and records. It is not a safety device and stops nothing.</p>
      <label class="choice">
        <input
          type="checkbox"
          name="cautions"
          aria-invalid={isMissed}
          aria-describedby={isMissed ? 'cautions-missed' : undefined}
          checked={areCautionsConfirmed.value}
          onChange={(event) => {
            areCautionsConfirmed.value = event.currentTarget.checked;
          }}
        />
        <span>All of this is so.</span>
      </label>
      {isMissed && (
        <p class="field-error" id="cautions-missed">
          <span aria-hidden="true">▲</span> Nothing is started until this is confirmed.
        </p>
      )}
    </fieldset>
  );
}
