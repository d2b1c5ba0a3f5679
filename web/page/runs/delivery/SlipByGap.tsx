import { gapMapOfRun } from '../../../../analysis/efficiency/lawSpeaker.ts';
import type { AgainstTheory, HoldResult } from '../../../../analysis/result.ts';
import { forwardSlip } from '../../../../analysis/slip/forwardSlip.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import type { RunView } from '../../../api.ts';
import { StackedBars, type StackedColumn } from '../../plots/StackedBars.tsx';

const LITRES = unitOf('l/min');

/** So many ways of the oil have a place of their own in a column; the others stand together. */
const MOST_PARTS = 4;
const OTHERS = 'other ways';

type SlipHold = Extract<AgainstTheory['slip'], { ok: true }>['value']['holds'][number];

function litres(flowM3PerS: number): number {
  return differenceFrom(flowM3PerS, LITRES);
}

/** Predicted slip of a hold by the way it takes, largest first [l/min]; empty where the parts bind. */
function waysOf(view: RunView, hold: HoldResult): ReadonlyMap<string, number> {
  const map = gapMapOfRun(view.run);
  const predicted =
    map === null
      ? null
      : forwardSlip(map, {
          oil: view.run.oil,
          temperatureK: hold.oilTemperatureK.value,
          differentialPressurePa: Math.max(0, hold.differentialPressurePa.value),
          speedRevPerS: hold.speedRevPerS.value,
        });
  if (predicted === null || !predicted.ok) return new Map();
  const { places, slipM3PerS } = predicted.value;
  return new Map(places.map(({ place, share }) => [place, litres(share * slipM3PerS)]));
}

/** Slip measured against slip predicted from the strip sheet, by the gaps that it goes through. */
export function SlipByGap({ view, holds }: { readonly view: RunView; readonly holds: readonly SlipHold[] }) {
  const results = new Map((view.result.delivery?.holds ?? []).map((hold) => [hold.number, hold]));
  const found = holds.flatMap((slip) => {
    const hold = results.get(slip.holdNumber);
    return hold === undefined ? [] : [{ slip, ways: waysOf(view, hold) }];
  });
  const largest = found.reduce<ReadonlyMap<string, number>>(
    (most, { ways }) => (ways.size > most.size ? ways : most),
    new Map(),
  );
  if (largest.size === 0) return null;
  const named = [...largest.keys()].slice(0, MOST_PARTS);
  const names = largest.size > MOST_PARTS ? [...named, OTHERS] : named;
  const columns = found.map(({ slip, ways }): StackedColumn => {
    const rest = [...ways].reduce((sum, [name, value]) => (named.includes(name) ? sum : sum + value), 0);
    const { value, expandedUncertainty } = slip.measured;
    return {
      number: slip.holdNumber,
      parts: names.map((name) => ({ name, value: name === OTHERS ? rest : (ways.get(name) ?? 0) })),
      measured: {
        value: litres(value),
        low: litres(value - expandedUncertainty),
        high: litres(value + expandedUncertainty),
      },
    };
  });
  return (
    <StackedBars
      title="Slip by the gaps it goes through"
      description={`Slip predicted from the strip sheet for ${columns.length} holds, by the gaps it goes through, with the measured slip and its expanded uncertainty`}
      xLabel="hold"
      yLabel="slip [l/min]"
      measuredLabel="measured"
      names={names}
      columns={columns}
      note="Columns: predicted from the strip sheet, where the oil goes. Upright line: expanded uncertainty of the measured slip for 95 %."
    />
  );
}
