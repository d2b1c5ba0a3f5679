import { lawRegressors } from '../../../../analysis/delivery/slipLaw.ts';
import { formatProbability, printFixed, printRpm } from '../../../../analysis/formatStated.ts';
import {
  type DeliveryResult,
  type HoldResult,
  LAW_TERMS,
  type LawTerm,
  type SlipLaw,
} from '../../../../analysis/result.ts';
import { combine, type SourceTable } from '../../../../analysis/uncertainty/source.ts';
import type { Stated } from '../../../../analysis/uncertainty/stated.ts';
import { stateUncertainty } from '../../../../analysis/uncertainty/stateUncertainty.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import { Entry } from '../../shell/Entry.tsx';
import { Wide } from '../../shell/Wide.tsx';
import { PowerOfTen } from '../../words/PowerOfTen.tsx';
import { StatedValue } from '../../words/StatedValue.tsx';
import { drawnHold } from './drawnHold.ts';
import { ResidualChart } from './ResidualChart.tsx';
import { TrialsTable } from './TrialsTable.tsx';
import { TwoStep } from './TwoStep.tsx';
import { TERM_SYMBOLS, TERM_WORDS } from './termWords.tsx';

/** The fitted hold of the greatest pressure difference: there each term shows most. */
function hardestHold(holds: readonly HoldResult[]): HoldResult | null {
  return holds
    .filter(({ leftOut }) => leftOut === null)
    .reduce<HoldResult | null>(
      (hardest, hold) =>
        hardest === null || hold.differentialPressurePa.value > hardest.differentialPressurePa.value ? hold : hardest,
      null,
    );
}

/** What a term makes of the flow at a hold. */
function flowOfTerm(law: SlipLaw, term: LawTerm, hold: HoldResult, sources: SourceTable): Stated {
  const derivative = lawRegressors({
    ...drawnHold(hold),
    speedRevPerS: hold.speedRevPerS.value,
    differentialPressurePa: hold.differentialPressurePa.value,
  })[term];
  const flow = combine(law.coefficients[term] * derivative, [{ input: law.uncertain[term], derivative }]);
  return stateUncertainty(flow, sources);
}

function Coefficient({ law, term }: { readonly law: SlipLaw; readonly term: LawTerm }) {
  const stated = law.stated[term];
  if (!law.terms.includes(term)) return <>not told apart</>;
  if (term === 'derivedCapacityM3PerRev') return <StatedValue stated={stated} unitSymbol="cm3/rev" hasUnit={true} />;
  return <PowerOfTen stated={stated} unit={TERM_WORDS[term].siUnit} />;
}

function CoefficientTable(table: {
  readonly law: SlipLaw;
  readonly hardest: HoldResult;
  readonly sources: SourceTable;
}) {
  const { law, hardest, sources } = table;
  const { demanded } = law.termChoice;
  const pressure = printFixed(differenceFrom(hardest.differentialPressurePa.value, unitOf('bar(a)')), 2);
  return (
    <Wide label="coefficients of the slip law">
      <table class="stacking" data-testid="law-table">
        <caption>± is the expanded uncertainty for 95 %, from the full law.</caption>
        <thead>
          <tr>
            <th scope="col">term</th>
            <th scope="col" class="number">
              coefficient
            </th>
            <th scope="col" class="number">
              its flow in hold {hardest.number}
              <br />
              {printRpm(hardest.speedRevPerS.value)} r/min, {pressure} bar
            </th>
            <th scope="col">demanded by the holds</th>
          </tr>
        </thead>
        <tbody>
          {LAW_TERMS.map((term) => (
            <tr key={term}>
              <th scope="row">
                {TERM_SYMBOLS[term]}, {TERM_WORDS[term].words}
              </th>
              <td class="number" data-head="coefficient">
                <Coefficient law={law} term={term} />
              </td>
              <td class="number" data-head={`in hold ${hardest.number}`}>
                <StatedValue stated={flowOfTerm(law, term, hardest, sources)} unitSymbol="l/min" hasUnit={true} />
              </td>
              <td data-head="demanded">{demanded.includes(term) ? 'yes' : 'no'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}

function Choice({ law }: { readonly law: SlipLaw }) {
  return (
    <details>
      <summary>Which terms the holds demand: {law.termChoice.candidates.length} laws compared</summary>
      <table>
        <caption>
          AICc weighs misfit against the number of terms; smaller is better. No interval comes from this choice.
        </caption>
        <thead>
          <tr>
            <th scope="col">terms</th>
            <th scope="col" class="number">
              AICc above the best
            </th>
            <th scope="col" class="number">
              weight
            </th>
          </tr>
        </thead>
        <tbody>
          {law.termChoice.candidates.map(({ terms, delta, akaikeWeight }) => (
            <tr key={terms.join()}>
              <th scope="row">
                {terms.map((term, index) => (
                  <span key={term}>
                    {index > 0 && ', '}
                    {TERM_SYMBOLS[term]}
                  </span>
                ))}
              </th>
              <td class="number">{printFixed(delta, 1)}</td>
              <td class="number">{formatProbability(akaikeWeight)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

function LackOfFit({ law }: { readonly law: SlipLaw }) {
  const { text, isLacking, againstScatter, againstRepeats } = law.lackOfFit;
  return (
    <p class={isLacking === true ? 'look-here' : ''} data-testid="lack-of-fit">
      {text}{' '}
      <span class="faint">
        χ² {printFixed(againstScatter.chiSquare, 2)} with {printFixed(againstScatter.degreesOfFreedom, 0)} degrees of
        freedom against the scatter of the readings: probability {formatProbability(againstScatter.probability)}.
        {againstRepeats !== null &&
          ` Against repeated holds F ${printFixed(againstRepeats.fRatio, 2)} (${againstRepeats.lackDegreesOfFreedom}, ${againstRepeats.repeatDegreesOfFreedom}): probability ${formatProbability(againstRepeats.probability)}.`}
      </span>
    </p>
  );
}

/** The slip law: its coefficients, what the holds demand, whether it tells all, and what one more hold would bring. */
export function SlipLawPassage(passage: {
  readonly result: DeliveryResult;
  readonly law: SlipLaw;
  readonly sources: SourceTable;
}) {
  const { result, law, sources } = passage;
  const hardest = hardestHold(result.holds);
  const { fitted } = result;
  return (
    <Entry head="Slip law">
      <p data-testid="law">
        q<sub>1</sub> = V<sub>i</sub> n − C<sub>l</sub> Δp/µ − C<sub>t</sub> √(2Δp/ρ) − C<sub>np</sub> n Δp, from{' '}
        {law.holdCount} holds
      </p>
      {hardest !== null && <CoefficientTable law={law} hardest={hardest} sources={sources} />}
      <LackOfFit law={law} />
      <ResidualChart holds={result.holds} />
      <Choice law={law} />
      {fitted !== null && (
        <>
          <TwoStep twoStep={fitted.twoStep} law={law} />
          {fitted.drain !== null && (
            <p>
              {fitted.drain.ok ? (
                <>
                  External drain q<sub>d</sub> = C<sub>d</sub> Δp/µ, C<sub>d</sub> ={' '}
                  <PowerOfTen stated={fitted.drain.value.drainCoefficientM3} unit="m³" />, from{' '}
                  {fitted.drain.value.holdNumbers.length} holds.
                </>
              ) : (
                `External drain: ${fitted.drain.reason.text}`
              )}
            </p>
          )}
          {fitted.monteCarlo !== null && <TrialsTable trials={fitted.monteCarlo} />}
          <p data-testid="next-hold">
            <strong>The next best hold.</strong> {fitted.nextHold.text}
          </p>
        </>
      )}
      <p class="faint">
        {law.betweenHoldsM3PerS === 0
          ? 'The holds differ from the law by no more than the scatter of their readings.'
          : `Beyond the scatter of their readings the holds differ from the law by ${printFixed(differenceFrom(law.betweenHoldsM3PerS, unitOf('l/min')), 4)} l/min (one standard deviation), which every interval takes in.`}
      </p>
    </Entry>
  );
}
