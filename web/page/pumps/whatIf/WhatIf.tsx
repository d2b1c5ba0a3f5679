import { useMemo, useState } from 'preact/hooks';
import { sweptVolumeOf } from '../../../../analysis/displacement/sweptVolume.ts';
import { printFixed } from '../../../../analysis/formatStated.ts';
import { deliveryPlan } from '../../../../analysis/guide/deliveryGuide.ts';
import type { OilRecord } from '../../../../analysis/records/oilRecord.ts';
import type { PumpRecord } from '../../../../analysis/records/pumpRecord.ts';
import type { StripSheet } from '../../../../analysis/records/stripSheet.ts';
import { forwardSlip } from '../../../../analysis/slip/forwardSlip.ts';
import { type GapMap, withChange } from '../../../../analysis/slip/gapMap.ts';
import { gapMapOf } from '../../../../analysis/slip/gapMapOf.ts';
import { differenceFrom, readingFrom, unitOf } from '../../../../analysis/units.ts';
import { typedText } from '../../forms/askedQuantity.ts';
import { Chart, type ChartSeries } from '../../plots/Chart.tsx';
import { seriesStyle } from '../../plots/palette.ts';
import { ask } from '../../shell/ask.ts';
import { Awaited } from '../../shell/Entry.tsx';
import { useAnswer } from '../../shell/useAnswer.ts';
import { channelUnit, unitWords } from '../../words/channelDisplay.ts';
import { unitSystem } from '../../words/unitSystem.ts';

const STEPS = 12;

/** Room of the sliders: a gasket more or less, a float felt otherwise, oil from cold to hot. */
const GASKET = { min: -0.2e-3, max: 0.3e-3, step: 0.01e-3 };
const TIPS = { min: -0.1e-3, max: 0.2e-3, step: 0.01e-3 };
const OIL_K = { min: 283.15, max: 363.15, step: 1 };

const LENGTH = { name: '', label: '', quantity: 'length' } as const;
const TEMPERATURE = { name: '', label: '', quantity: 'temperature' } as const;

type Changed = { readonly endFloatM: number; readonly tipsM: number; readonly oilK: number };

/** The sheet's gaps with the end float and the tips opened or closed by so much. */
function changedMap(map: GapMap, { endFloatM, tipsM }: Changed): GapMap {
  return ['tip.driver', 'tip.driven'].reduce(
    (changed, id) =>
      changed.quantities.some((quantity) => quantity.id === id) ? withChange(changed, id, tipsM) : changed,
    map.quantities.some(({ id }) => id === 'endFloat') ? withChange(map, 'endFloat', endFloatM) : map,
  );
}

type Setting = {
  readonly map: GapMap;
  readonly oil: OilRecord;
  readonly temperatureK: number;
  readonly speedRevPerS: number;
  readonly sweptVolumeM3PerRev: number;
};

/** Flow to expect at a pressure difference; null where parts bind. */
function flowAt(
  { map, oil, temperatureK, speedRevPerS, sweptVolumeM3PerRev }: Setting,
  differentialPressurePa: number,
) {
  const slip = forwardSlip(map, { oil, temperatureK, differentialPressurePa, speedRevPerS });
  if (!slip.ok) return null;
  const theoretical = (sweptVolumeM3PerRev + slip.value.dragM3PerRev) * speedRevPerS;
  return { slip: slip.value, flowM3PerS: theoretical - slip.value.slipM3PerS, theoretical };
}

function lineOf(setting: Setting, highestPa: number, label: string, index: number): ChartSeries {
  const line = Array.from({ length: STEPS + 1 }, (_, step) => (step / STEPS) * highestPa).flatMap((pa) => {
    const at = flowAt(setting, pa);
    if (at === null) return [];
    return [
      [
        differenceFrom(pa, channelUnit('deliveryPressure')),
        readingFrom(at.flowM3PerS, channelUnit('flow'), 0),
      ] as const,
    ];
  });
  return { label, style: seriesStyle(index), line, band: [], points: [], openPoints: [] };
}

function Slider(of: {
  readonly label: string;
  readonly shown: string;
  readonly room: { readonly min: number; readonly max: number; readonly step: number };
  readonly value: number;
  readonly onChange: (value: number) => void;
}) {
  const { label, shown, room, value, onChange } = of;
  return (
    <label class="field">
      <span>
        {label}: {shown}
      </span>
      <input
        type="range"
        min={room.min}
        max={room.max}
        step={room.step}
        value={value}
        aria-valuetext={shown}
        onInput={(event) => onChange(Number(event.currentTarget.value))}
      />
    </label>
  );
}

function Sliders({ pump, map, oil }: { readonly pump: PumpRecord; readonly map: GapMap; readonly oil: OilRecord }) {
  const [dutyPoint] = (pump.duty?.demands ?? []).flatMap((demand) => ('at' in demand ? [demand.at] : []));
  const plan = deliveryPlan(pump);
  const speedRevPerS = dutyPoint?.speedRevPerS ?? plan[0]?.speedRevPerS ?? 0;
  const highestPa = Math.max(...plan.map(({ deliveryGaugePressurePa }) => deliveryGaugePressurePa));
  const dutyPa = dutyPoint?.differentialPressurePa ?? highestPa;
  const usual: Changed = { endFloatM: 0, tipsM: 0, oilK: dutyPoint?.oilTemperatureK ?? 318.15 };
  const [changed, setChanged] = useState(usual);
  const swept = sweptVolumeOf(pump.geometry);
  if (!swept.ok) return <p>{swept.reason.text}</p>;
  const common = { oil, speedRevPerS, sweptVolumeM3PerRev: swept.value.sweptVolume.value };
  const asMeasured: Setting = { ...common, map, temperatureK: usual.oilK };
  const asWished: Setting = { ...common, map: changedMap(map, changed), temperatureK: changed.oilK };
  const now = flowAt(asWished, dutyPa);
  const system = unitSystem.value;
  const more = (si: number): string => `${si > 0 ? '+' : ''}${typedText(LENGTH, Number(si.toFixed(7)), system)}`;
  const flow = (si: number): string => printFixed(readingFrom(si, channelUnit('flow'), 0), 2);
  const at = `${printFixed(60 * speedRevPerS, 0)} r/min and ${printFixed(differenceFrom(dutyPa, unitOf('bar(a)')), 1)} bar`;
  return (
    <div data-testid="what-if">
      <h3>What if</h3>
      <div class="fields">
        <Slider
          label="end float, by the gasket"
          shown={more(changed.endFloatM)}
          room={GASKET}
          value={changed.endFloatM}
          onChange={(endFloatM) => setChanged({ ...changed, endFloatM })}
        />
        <Slider
          label="tip clearance"
          shown={more(changed.tipsM)}
          room={TIPS}
          value={changed.tipsM}
          onChange={(tipsM) => setChanged({ ...changed, tipsM })}
        />
        <Slider
          label="oil"
          shown={typedText(TEMPERATURE, changed.oilK, system)}
          room={OIL_K}
          value={changed.oilK}
          onChange={(oilK) => setChanged({ ...changed, oilK })}
        />
      </div>
      {now === null ? (
        <p class="look-here">
          <span aria-hidden="true">▲</span> The parts would bind: no clearance is left at this temperature.
        </p>
      ) : (
        <>
          <p class="lead" data-testid="what-if-sentence">
            At {at}: flow {flow(now.flowM3PerS)} {unitWords('flow')}, slip {flow(now.slip.slipM3PerS)},{' '}
            {printFixed((100 * now.flowM3PerS) / now.theoretical, 1)} % of V<sub>i</sub> n.
          </p>
          <p>
            {now.slip.inWords}; {now.slip.validity}.
          </p>
        </>
      )}
      <Chart
        title="Flow against pressure, as predicted"
        description="Flow to expect against pressure difference, as measured and as changed by the sliders"
        note={`Oil: ${oil.name}. Predicted from clearances; the run decides.`}
        xLabel={`pressure difference [${unitWords('deliveryPressure').replace(/\([ag]\)/, '')}]`}
        yLabel={`flow [${unitWords('flow')}]`}
        series={[lineOf(asMeasured, highestPa, 'as measured', 0), lineOf(asWished, highestPa, 'what if', 1)]}
      />
      <p>
        <button type="button" onClick={() => setChanged(usual)}>
          Back to what was measured
        </button>
      </p>
    </div>
  );
}

/** Slip that the clearances predict, and sliders for what would become of it. All of it is worked out in this browser. */
export function WhatIf({ pump, sheet }: { readonly pump: PumpRecord; readonly sheet: StripSheet }) {
  const defaults = useAnswer('defaults', ask.defaults);
  const map = useMemo(() => gapMapOf(sheet, pump.materials), [sheet, pump]);
  if (!map.ok) return <p class="faint">No slip is predicted: {map.reason.text}.</p>;
  const gaps = map.value;
  return <Awaited answer={defaults}>{({ oil }) => <Sliders pump={pump} map={gaps} oil={oil} />}</Awaited>;
}
