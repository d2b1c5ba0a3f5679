import { signal } from '@preact/signals';

/** Confirmed once since the page was opened; asked again on the next day's page. */
const areCautionsConfirmed = signal(false);

const CAUTIONS: readonly string[] = [
  'A relief valve is fitted on the delivery side and set: this pump against a closed valve bursts what is weakest.',
  'Guards stand over shaft and coupling; nothing loose hangs near them.',
  'Eye protection is on. Never feel for a leak with the hand: a jet of oil goes through skin.',
  'The oil tray is in place and the floor is dry. Oil and casing may be hot.',
  'Local rules hold, and a qualified person is in charge of the bench.',
];

/** What must be so before a pump turns; confirmed by one tick. */
export function Cautions() {
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
          required
          name="cautions"
          checked={areCautionsConfirmed.value}
          onChange={(event) => {
            areCautionsConfirmed.value = event.currentTarget.checked;
          }}
        />
        <span>All of this is so.</span>
      </label>
    </fieldset>
  );
}
