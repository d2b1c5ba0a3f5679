import type { Signal } from '@preact/signals';
import { largeType, markKeys, warningSound } from './benchSwitches.ts';
import { soundTone } from './warningTone.ts';

function Switch(of: {
  readonly choice: Signal<'on' | 'off'>;
  readonly label: string;
  readonly onTurnedOn?: () => void;
}) {
  const isOn = of.choice.value === 'on';
  return (
    <button
      type="button"
      aria-pressed={isOn}
      onClick={() => {
        of.choice.value = isOn ? 'off' : 'on';
        if (!isOn) of.onTurnedOn?.();
      }}
    >
      {of.label}: {of.choice.value}
    </button>
  );
}

/** How this browser shows the bench; each browser by itself. */
export function SwitchRow() {
  return (
    <p class="button-row bench-switches">
      <Switch choice={largeType} label="Large type" />
      <Switch choice={warningSound} label="Warning tone" onTurnedOn={soundTone} />
      <Switch choice={markKeys} label="Mark by keys 1 to 5" />
    </p>
  );
}
