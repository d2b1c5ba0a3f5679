import { speedGroups } from '../../../analysis/delivery/speedGroups.ts';
import type { DeliveryResult } from '../../../analysis/result.ts';
import type { RunView } from '../../api.ts';
import { Chart } from '../plots/Chart.tsx';
import { Entry } from '../shell/Entry.tsx';
import { HoldTable } from './HoldTable.tsx';
import { efficiencySeries, flowSeries } from './lawSeries.ts';
import { TheoryTable } from './TheoryTable.tsx';

/** What a delivery run yields: the law, both efficiencies, theory beside measurement, and every hold. */
export function DeliveryPassage({ view, result }: { readonly view: RunView; readonly result: DeliveryResult }) {
  const { sources } = view.result;
  const groups = speedGroups(result.holds);
  const law = result.law.ok ? result.law.value : null;
  return (
    <>
      <Entry head="Delivery">
        {!result.law.ok && <p class="look-here">{result.law.reason.text}</p>}
        {groups.length > 0 && (
          <div class="charts" data-testid="delivery-charts">
            <Chart
              title="Flow against pressure"
              description={`Measured flow against pressure difference at ${groups.length} speeds, with the fitted law and its 95 % band; the numbers stand in the table of holds`}
              xLabel="pressure difference [bar]"
              yLabel="flow [l/min]"
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
          </div>
        )}
        {law !== null && (
          <p class="faint">
            Lines: the fitted law at each speed and its oil, within the measured pressures alone; shaded: its 95 % band.
          </p>
        )}
      </Entry>
      <Entry head="Theory beside it">
        <TheoryTable theory={view.result.theory} result={result} />
      </Entry>
      <Entry head="Holds">
        <HoldTable holds={result.holds} />
      </Entry>
    </>
  );
}
