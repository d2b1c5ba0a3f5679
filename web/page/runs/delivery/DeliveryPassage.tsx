import { speedGroups } from '../../../../analysis/delivery/speedGroups.ts';
import type { DeliveryResult } from '../../../../analysis/result.ts';
import type { RunView } from '../../../api.ts';
import { Chart } from '../../plots/Chart.tsx';
import { Entry } from '../../shell/Entry.tsx';
import { DimensionlessChart } from '../map/DimensionlessChart.tsx';
import { MapPassage } from '../map/MapPassage.tsx';
import { AgainstTheoryPassage } from './AgainstTheoryPassage.tsx';
import { ChecksPassage } from './ChecksPassage.tsx';
import { drawnHold } from './drawnHold.ts';
import { FlowAgainstSpeed } from './FlowAgainstSpeed.tsx';
import { HeadlineNumbers } from './HeadlineNumbers.tsx';
import { HoldTable } from './HoldTable.tsx';
import { efficiencySeries, flowSeries } from './lawSeries.ts';
import { OutlookPassage } from './OutlookPassage.tsx';
import { SlipLawPassage } from './SlipLawPassage.tsx';

type Shown = { readonly view: RunView; readonly result: DeliveryResult };

function DeliveryCharts({ view, result }: Shown) {
  const { sources } = view.result;
  const groups = speedGroups(result.holds.map(drawnHold));
  const law = result.law.ok ? result.law.value : null;
  return (
    <Entry head="Delivery">
      {!result.law.ok && <p class="look-here">{result.law.reason.text}</p>}
      {groups.length > 0 && (
        <div class="charts" data-testid="delivery-charts">
          <FlowAgainstSpeed result={result} />
          <Chart
            title="Flow against pressure"
            description={`Measured flow against pressure difference at ${groups.length} speeds, with the fitted law and its 95 % band; the numbers stand in the table of holds`}
            xLabel="pressure difference [bar]"
            yLabel="flow [l/min]"
            note={result.holds.some(({ leftOut }) => leftOut !== null) && 'Open: left out of the fit.'}
            series={flowSeries(groups, law, sources)}
          />
          <Chart
            title="Volumetric efficiency against pressure"
            description="Volumetric efficiency against pressure difference, filled points against the derived capacity, open points against the geometry; the numbers stand in the table of holds"
            xLabel="pressure difference [bar]"
            yLabel="efficiency [%]"
            note={
              <>
                Filled: q/(V<sub>i</sub> n), against the derived capacity. Open: q/(V<sub>g</sub> n), delivery against
                geometry.
              </>
            }
            series={efficiencySeries(groups, law, sources)}
          />
          {result.fitted !== null && <DimensionlessChart view={result.fitted.dimensionless} />}
        </div>
      )}
      {law !== null && (
        <p class="faint">
          Lines: the fitted law at each speed and its oil, within the measured pressures alone; shaded: its 95 % band.
        </p>
      )}
    </Entry>
  );
}

/** What a delivery run yields, from the numbers that are quoted down to every hold. */
export function DeliveryPassage({ view, result, onView }: Shown & { readonly onView: (view: RunView) => void }) {
  const { sources, theory } = view.result;
  const { fitted } = result;
  const law = result.law.ok ? result.law.value : null;
  const demands = view.run.pump.duty?.demands ?? [];
  return (
    <>
      {law !== null && <HeadlineNumbers result={result} law={law} theory={theory} demands={demands} />}
      <DeliveryCharts view={view} result={result} />
      {law !== null && fitted !== null && (
        <>
          <Entry head="Efficiency">
            <MapPassage view={view} result={result} law={law} fitted={fitted} />
          </Entry>
          <OutlookPassage demands={demands} outlook={fitted.outlook} />
          <SlipLawPassage result={result} law={law} sources={sources} />
          <ChecksPassage checks={fitted.checks} />
        </>
      )}
      <AgainstTheoryPassage view={view} theory={theory} law={law} against={fitted?.againstTheory ?? null} />
      <Entry head="Holds">
        <HoldTable view={view} result={result} onView={onView} />
      </Entry>
    </>
  );
}
