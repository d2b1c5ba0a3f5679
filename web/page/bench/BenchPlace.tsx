import { useEffect, useState } from 'preact/hooks';
import type { StartDefaults } from '../../api.ts';
import { sessionState } from '../live/liveBench.ts';
import { StripBands } from '../plots/StripBands.tsx';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry, Refusal } from '../shell/Entry.tsx';
import { address } from '../shell/route.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { ConnectionLine } from './ConnectionLine.tsx';
import { GuidePassage } from './GuidePassage.tsx';
import { LineHealth } from './LineHealth.tsx';
import { LiveReadings } from './LiveReadings.tsx';
import { PracticePanel } from './PracticePanel.tsx';
import { RunBar } from './RunBar.tsx';
import { StartForm } from './StartForm.tsx';
import { StripNumbers } from './StripNumbers.tsx';
import { useSealedRunOpens } from './watchedRun.ts';

function OpenBench({ defaults }: { readonly defaults: StartDefaults }) {
  const state = sessionState.value;
  // Gauge pressures need a barometer: the one set last.
  const barometerPa = defaults.setUp.barometerPa.value;
  if (state === null) return <p class="faint">Waiting for the first word from the bench …</p>;
  const { openRun } = state;
  return (
    <>
      {openRun === null ? <h1>The bench</h1> : <RunBar run={openRun} />}
      <ConnectionLine state={state} />
      <Refusal text={state.trouble} />
      {openRun === null && state.lastSealedRunId !== null && (
        <p data-testid="last-sealed">
          The last run is sealed: <a href={address.run(state.lastSealedRunId)}>read run {state.lastSealedRunId}</a>.
        </p>
      )}
      {openRun !== null && (
        <Entry head="Next">
          <GuidePassage guide={openRun.guide} />
          <p class="faint">Stop recording ends the recording and nothing else: the pump is stopped at the bench.</p>
        </Entry>
      )}
      <Entry head="Readings">
        <LiveReadings stillness={openRun?.guide.stillness ?? {}} barometerPa={barometerPa} />
      </Entry>
      {openRun === null && (
        <Entry head="Start a run">
          <StartForm defaults={defaults} isPractice={state.practice !== null} />
        </Entry>
      )}
      {state.practice !== null && (
        <Entry head="Practice bench">
          <PracticePanel />
        </Entry>
      )}
      <Entry head="Strips">
        <p class="faint">The last two minutes of bench time.</p>
        <StripBands barometerPa={barometerPa} />
        <StripNumbers barometerPa={barometerPa} />
      </Entry>
      <Entry head="The line">
        <LineHealth state={state} />
      </Entry>
    </>
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
