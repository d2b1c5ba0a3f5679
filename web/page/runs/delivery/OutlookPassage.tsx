import type { ComponentChildren } from 'preact';
import { formatStated, printFixed } from '../../../../analysis/formatStated.ts';
import type { Demand } from '../../../../analysis/records/dutyRecord.ts';
import type { DutyOutlook } from '../../../../analysis/result.ts';
import type { Stated } from '../../../../analysis/uncertainty/stated.ts';
import { differenceFrom, readingFrom, unitOf } from '../../../../analysis/units.ts';
import { Entry } from '../../shell/Entry.tsx';
import { demandWords, pointWords } from '../../words/demandWords.ts';
import { statedWords } from '../../words/statedWords.ts';

type Spoken = { readonly demand: Extract<Demand, { readonly at: unknown }>; readonly outlook: DutyOutlook };

function beyondWords(beyond: DutyOutlook['hottestOil'] | readonly string[]): string {
  if (!Array.isArray(beyond) || beyond.length === 0) return '';
  return ` This lies outside the holds, in ${beyond.join(' and ')}: the law is stretched there.`;
}

function celsius(temperatureK: number): string {
  return `${printFixed(readingFrom(temperatureK, unitOf('degC'), 0), 0)} °C`;
}

function slowestSentence(found: DutyOutlook['slowestHoldingPressure'], lead: string): string {
  if (!found.ok) return `${lead}: ${found.reason.text}`;
  const { speedRevPerS, beyond } = found.value;
  return `${lead} from ${statedWords(speedRevPerS, 'r/min')} up.${beyondWords(beyond)}`;
}

function hottestSentence(hottest: DutyOutlook['hottestOil']): string {
  switch (hottest.kind) {
    case 'limit':
      return `With oil hotter than ${statedWords(hottest.temperatureK, 'degC')} it is no longer met.${beyondWords(hottest.beyond)}`;
    case 'neverFails':
      return `However hot the oil gets, up to ${celsius(hottest.upToK)} it stays met.`;
    case 'alwaysFails':
      return `It is not met at any oil temperature from ${celsius(hottest.fromK)} up.`;
    case 'partsBind':
      return `Parts would bind at ${celsius(hottest.atK)}: ${hottest.reason.text}`;
  }
}

function halfWidth(flowM3PerS: Stated): string {
  const { expandedUncertainty, unit } = formatStated(flowM3PerS, unitOf('l/min'));
  return `± ${expandedUncertainty} ${unit}`;
}

function testOilSentence(testOil: DutyOutlook['testOil']): string {
  if (!testOil.ok) return testOil.reason.text;
  const { grade, viscosityAtBenchM2PerS, wantedM2PerS, matchingTemperatureK, uncertaintyRatio } = testOil.value;
  const mm2 = (si: number): string => printFixed(differenceFrom(si, unitOf('mm2/s')), 1);
  const change = 100 * (uncertaintyRatio - 1);
  const effect =
    Math.abs(change) < 0.5
      ? 'That would leave the uncertainty of the flow as it is'
      : `That would make the uncertainty of the flow ${printFixed(Math.abs(change), 0)} % ${change < 0 ? 'smaller' : 'larger'}`;
  return (
    `The machine's oil has ${mm2(wantedM2PerS)} mm²/s at the duty. ${grade} would have ${mm2(viscosityAtBenchM2PerS)} mm²/s as cool ` +
    `as this bench was, and just that at ${celsius(matchingTemperatureK)}. ${effect}: ${halfWidth(testOil.value.before.flowM3PerS)} ` +
    `now, ${halfWidth(testOil.value.after.flowM3PerS)} with it.`
  );
}

function Line({ head, children }: { readonly head: string; readonly children: ComponentChildren }) {
  return (
    <div>
      <dt>{head}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function PointOutlook({ spoken }: { readonly spoken: readonly Spoken[] }) {
  const [first] = spoken;
  if (first === undefined) return null;
  const { outlook, demand } = first;
  return (
    <>
      <h3>At {pointWords(demand.at)}</h3>
      <dl class="checks">
        <Line head="what it delivers there">
          {statedWords(outlook.flowM3PerS, 'l/min')}; {statedWords(outlook.slipM3PerS, 'l/min')} slip back,{' '}
          {statedWords(outlook.derivedEfficiency, '%')} of V<sub>i</sub> n. Clearances: {outlook.clearances}.
        </Line>
        <Line head="slowest speed">{slowestSentence(outlook.slowestHoldingPressure, 'It holds the pressure')}</Line>
        {spoken.map(({ demand: each, outlook: of }) => {
          const { limit, unitSymbol, what } = demandWords(each);
          return (
            <Line key={each.id} head={`${what.split(' at ')[0] ?? what}, ${limit} ${unitSymbol}`}>
              {slowestSentence(of.slowestMeetingDemand, 'Met')} {hottestSentence(of.hottestOil)}
            </Line>
          );
        })}
        <Line head="a test oil">{testOilSentence(outlook.testOil)}</Line>
      </dl>
    </>
  );
}

/** What the law says of the points at which the machine asks for something. */
export function OutlookPassage(props: {
  readonly demands: readonly Demand[];
  readonly outlook: readonly DutyOutlook[];
}) {
  const spoken = props.outlook.flatMap((outlook): Spoken[] => {
    const demand = props.demands.find(({ id }) => id === outlook.demandId);
    return demand !== undefined && 'at' in demand ? [{ demand, outlook }] : [];
  });
  const keyOf = ({ demand }: Spoken): string => JSON.stringify(demand.at);
  const points = [...new Set(spoken.map(keyOf))];
  if (points.length === 0) return null;
  return (
    <Entry head="Outlook at the duty">
      <div data-testid="outlook">
        {points.map((key) => (
          <PointOutlook key={key} spoken={spoken.filter((entry) => keyOf(entry) === key)} />
        ))}
      </div>
    </Entry>
  );
}
