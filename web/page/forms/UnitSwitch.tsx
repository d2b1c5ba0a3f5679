import { unitSystem } from '../words/unitSystem.ts';

/** Metric or US customary, for all that is read and typed at this browser. */
export function UnitSwitch() {
  const isUs = unitSystem.value === 'US';
  return (
    <p class="unit-switch">
      <button
        type="button"
        class="quiet"
        onClick={() => {
          unitSystem.value = isUs ? 'metric' : 'US';
        }}
      >
        {isUs ? 'units: US, change to metric' : 'units: metric, change to US'}
      </button>
    </p>
  );
}
