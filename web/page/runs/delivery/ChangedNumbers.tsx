import { formatStated } from '../../../../analysis/formatStated.ts';
import type { RunResult } from '../../../../analysis/result.ts';
import type { Stated } from '../../../../analysis/uncertainty/stated.ts';
import { unitOf } from '../../../../analysis/units.ts';
import { Entry } from '../../shell/Entry.tsx';
import { StatedValue } from '../../words/StatedValue.tsx';
import { verdictSentence } from '../../words/verdictSentence.ts';

type Quoted = { readonly name: string; readonly unitSymbol: string; readonly stated: Stated };

/** The numbers of a delivery run that are judged and quoted. */
function quotedNumbers({ delivery }: RunResult): readonly Quoted[] {
  if (delivery === null || !delivery.law.ok) return [];
  const [outlook] = delivery.fitted?.outlook ?? [];
  return [
    { name: 'derived capacity', unitSymbol: 'cm3/rev', stated: delivery.law.value.stated.derivedCapacityM3PerRev },
    ...(outlook === undefined
      ? []
      : [
          { name: 'flow at the duty', unitSymbol: 'l/min', stated: outlook.flowM3PerS },
          { name: 'slip at the duty', unitSymbol: 'l/min', stated: outlook.slipM3PerS },
          { name: 'efficiency at the duty', unitSymbol: '%', stated: outlook.derivedEfficiency },
        ]),
  ];
}

/** Now less before, with the digits of what it stands beside. */
function stepText(now: Quoted, before: Quoted): string {
  const step = now.stated.value - before.stated.value;
  const { value } = formatStated({ ...now.stated, value: step }, unitOf(now.unitSymbol));
  return step > 0 ? `+${value}` : value;
}

/** What the last hold that was taken out, or put back, made of the numbers. */
export function ChangedNumbers({ before, now }: { readonly before: RunResult; readonly now: RunResult }) {
  const then = quotedNumbers(before);
  const [earlier, later] = [verdictSentence(before), verdictSentence(now)];
  return (
    <Entry head="What it changed">
      <div data-testid="changed-numbers" aria-live="polite">
        <p>{earlier === later ? 'The verdict stays as it was.' : `The verdict was: ${earlier}`}</p>
        <table class="stacking">
          <caption>
            The same readings with one hold more or less: what moves by more than its uncertainty hangs on that hold.
          </caption>
          <thead>
            <tr>
              <th scope="col">number</th>
              <th scope="col" class="number">
                before
              </th>
              <th scope="col" class="number">
                now
              </th>
              <th scope="col" class="number">
                now less before
              </th>
            </tr>
          </thead>
          <tbody>
            {quotedNumbers(now).map((quoted) => {
              const was = then.find(({ name }) => name === quoted.name);
              return (
                <tr key={quoted.name}>
                  <th scope="row">{quoted.name}</th>
                  <td class="number" data-head="before">
                    {was === undefined ? '–' : <StatedValue {...was} hasUnit={true} />}
                  </td>
                  <td class="number" data-head="now">
                    <StatedValue {...quoted} hasUnit={true} />
                  </td>
                  <td class="number" data-head="now less before">
                    {was === undefined ? '–' : stepText(quoted, was)}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
    </Entry>
  );
}
