import { useEffect, useState } from 'preact/hooks';
import type { OpenRun, StartDefaults } from '../../api.ts';
import { sessionState } from '../live/liveBench.ts';
import { StripBands } from '../plots/StripBands.tsx';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry, Refusal } from '../shell/Entry.tsx';
import { later } from '../shell/later.tsx';
import { address } from '../shell/route.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { largeType } from './benchSwitches.ts';
import { ConnectionLine } from './ConnectionLine.tsx';
import { DryCountDown } from './DryCountDown.tsx';
import { FirstVisit } from './FirstVisit.tsx';
import { GuidePassage } from './GuidePassage.tsx';
import { LineHealth } from './LineHealth.tsx';
import { LiveReadings } from './LiveReadings.tsx';
import { LostRun } from './LostRun.tsx';
import { PracticePanel } from './PracticePanel.tsx';
import { QuickMarks } from './QuickMarks.tsx';
import { RunBar } from './RunBar.tsx';
import { SpokenReadings } from './SpokenReadings.tsx';
import { StartForm } from './StartForm.tsx';
import { StripNumbers } from './StripNumbers.tsx';
import { SwitchRow } from './SwitchRow.tsx';
import { Warnings } from './Warnings.tsx';
import { useSealedRunOpens } from './watchedRun.ts';

const PredictedPassage = later('predicted', async () => (await import('./PredictedPassage.tsx')).PredictedPassage);
const TestDayPassage = later('test day', async () => (await import('./testDay/TestDayPassage.tsx')).TestDayPassage);

/** While a run is recorded: what to do next, and what the run shows so far. */
function Recording({ run }: { readonly run: OpenRun }) {
  const { dryTurning } = run.guide;
  return (
    <Entry head="Next">
      <GuidePassage guide={run.guide} />
      {dryTurning !== undefined && <DryCountDown {...dryTurning} />}
      <QuickMarks />
      <p class="faint">Stop recording ends the recording and nothing else: the pump is stopped at the bench.</p>
    </Entry>
  );
}

function OpenBench({ defaults }: { readonly defaults: StartDefaults }) {
  const state = sessionState.value;
  // Gauge pressures need a barometer: the one set last.
  const barometerPa = defaults.setUp.barometerPa.value;
  if (state === null) return <p class="faint">Waiting for the first word from the bench …</p>;
  const { openRun } = state;
  const isLarge = largeType.value === 'on';
  return (
    <div class={isLarge ? 'large-type' : ''}>
      {openRun === null ? <h1>The bench</h1> : <RunBar run={openRun} />}
      <ConnectionLine state={state} />
      <LostRun />
      <Refusal text={state.trouble} />
      {openRun !== null && <Warnings warnings={openRun.warnings} barometerPa={barometerPa} />}
      {openRun === null && state.lastSealedRunId !== null && (
        <p data-testid="last-sealed">
          The last run is sealed: <a href={address.run(state.lastSealedRunId)}>read run {state.lastSealedRunId}</a>.
        </p>
      )}
      {openRun === null && <FirstVisit isPractice={state.practice !== null} />}
      {openRun !== null && <Recording run={openRun} />}
      <Entry head="Readings">
        <LiveReadings
          stillness={openRun?.guide.stillness ?? {}}
          limits={openRun?.limits ?? []}
          barometerPa={barometerPa}
        />
        <SpokenReadings barometerPa={barometerPa} isRecording={openRun !== null} />
        <SwitchRow />
      </Entry>
      {openRun?.kind === 'delivery' && (
        <Entry head="Expected">
          <PredictedPassage run={openRun} />
        </Entry>
      )}
      {openRun === null && (
        <>
          <Entry head="Test day">
            <TestDayPassage />
          </Entry>
          <Entry head="Start a run">
            <StartForm defaults={defaults} isPractice={state.practice !== null} />
          </Entry>
        </>
      )}
      {state.practice !== null && (
        <Entry head="Practice bench">
          <PracticePanel />
        </Entry>
      )}
      {!isLarge && (
        <Entry head="Strips">
          <p class="faint">The last two minutes of bench time.</p>
          <StripBands barometerPa={barometerPa} />
          <StripNumbers barometerPa={barometerPa} />
        </Entry>
      )}
      <Entry head="The line">
        <LineHealth state={state} />
      </Entry>
    </div>
  );
}

/** The bench: what it reads now, and the run that is being recorded or about to be. */
export function BenchPlace() {
  useSealedRunOpens();
  const openRunId = sessionState.value?.openRun?.id ?? 'none';
  const defaults = useAnswer(openRunId, ask.defaults);
  const [known, setKnown] = useState<StartDefaults | null>(null);
  useEffect(() => {
    if (defaults.status === 'here') setKnown(defaults.value);
  }, [defaults]);
  // Asked anew when a run begins or ends; the page stays as it is meanwhile.
  if (known !== null) return <OpenBench defaults={known} />;
  return <Awaited answer={defaults}>{(value) => <OpenBench defaults={value} />}</Awaited>;
}
