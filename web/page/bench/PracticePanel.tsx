import { useRef } from 'preact/hooks';
import { ask } from '../shell/ask.ts';
import { Refusal } from '../shell/Entry.tsx';
import { type Action, useAction } from '../shell/useAction.ts';

type Setting = {
  readonly word: 'speed' | 'pressure' | 'oil';
  readonly label: string;
  readonly unit: string;
  readonly max: number;
  readonly initial: number;
};

const SETTINGS: readonly Setting[] = [
  { word: 'speed', label: 'motor speed', unit: 'r/min', max: 1800, initial: 900 },
  { word: 'pressure', label: 'delivery pressure', unit: 'bar(g)', max: 7.5, initial: 2 },
  { word: 'oil', label: 'oil in the tank', unit: '°C', max: 100, initial: 45 },
];

function SettingForm({ setting, action }: { readonly setting: Setting; readonly action: Action }) {
  const input = useRef<HTMLInputElement>(null);
  const set = (event: Event): void => {
    event.preventDefault();
    const value = input.current?.value ?? '';
    action.run(async () => {
      await ask.practice({ command: `${setting.word} ${value}` });
    });
  };
  return (
    <form onSubmit={set}>
      <label class="field">
        <span>{setting.label}</span>
        <span class="with-unit">
          <input
            ref={input}
            type="number"
            min="0"
            max={setting.max}
            step="any"
            required
            defaultValue={String(setting.initial)}
            data-testid={`practice-${setting.word}`}
          />
          <span>{setting.unit}</span>
        </span>
      </label>
      <button type="submit" disabled={action.isUnderWay} aria-label={`Set ${setting.label}`}>
        Set
      </button>
    </form>
  );
}

/** The hands of a practice bench: motor, valve, and whether pump and suction pipe are dry. */
export function PracticePanel() {
  const action = useAction();
  const tell = (command: string) => (): void => {
    action.run(async () => {
      await ask.practice({ command });
    });
  };
  return (
    <div data-testid="practice-panel">
      <div class="practice-row">
        {SETTINGS.map((setting) => (
          <SettingForm key={setting.word} setting={setting} action={action} />
        ))}
        <button type="button" disabled={action.isUnderWay} onClick={tell('speed 0')}>
          Stop the motor
        </button>
        <button type="button" disabled={action.isUnderWay} onClick={tell('dry')}>
          Drain it dry
        </button>
        <button type="button" disabled={action.isUnderWay} onClick={tell('flood')}>
          Flood it
        </button>
      </div>
      <Refusal text={action.refusal} />
    </div>
  );
}
