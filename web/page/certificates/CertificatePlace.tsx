import { useState } from 'preact/hooks';
import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import { formatStated, printedUnit } from '../../../analysis/formatStated.ts';
import { RUN_KIND_WORDS } from '../../../analysis/runKindWords.ts';
import { unitOf } from '../../../analysis/units.ts';
import type { CertificateListEntry } from '../../api.ts';
import { pdfAddress } from '../runs/FileCertificate.tsx';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry, Refusal } from '../shell/Entry.tsx';
import { address } from '../shell/route.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { demandWords } from '../words/demandWords.ts';
import { wallTime } from '../words/moments.ts';
import { ReplaceForm } from './ReplaceForm.tsx';
import { WithdrawForm } from './WithdrawForm.tsx';

function valueWords({ demand, value }: CertificateData['demands'][number]): string {
  if (value === null) return '–';
  const { unitSymbol } = demandWords(demand);
  const printed = formatStated(value, unitOf(unitSymbol));
  return `${printed.value} ± ${printed.expandedUncertainty} ${printedUnit(unitSymbol)}`;
}

function Demands({ demands }: { readonly demands: CertificateData['demands'] }) {
  if (demands.length === 0) return <p>Nothing was asked of this pump: the numbers stand alone.</p>;
  return (
    <table class="stacking">
      <thead>
        <tr>
          <th scope="col">what is asked</th>
          <th scope="col">limit</th>
          <th scope="col">found</th>
          <th scope="col">verdict</th>
        </tr>
      </thead>
      <tbody>
        {demands.map((entry) => {
          const { what, limit, unitSymbol } = demandWords(entry.demand);
          return (
            <tr key={entry.demand.id}>
              <th scope="row">{what}</th>
              <td>
                {limit} {printedUnit(unitSymbol)}
              </td>
              <td>{valueWords(entry)}</td>
              <td class="verdict">{entry.verdict}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Certificate(of: { readonly data: CertificateData; readonly listed: CertificateListEntry }) {
  const { data } = of;
  const [listed, setListed] = useState(of.listed);
  return (
    <>
      <h1>
        Certificate {data.number}
        {data.isSpecimen && <span class="specimen"> SPECIMEN</span>}
      </h1>
      <p class="verdict-sentence">{data.sentence}</p>
      {listed.standing !== 'issued' && (
        <p class="look-here" data-testid="standing">
          <span aria-hidden="true">▲</span> {listed.standingNote}
        </p>
      )}
      {data.dateDoubts.map((doubt) => (
        <p key={doubt} class="look-here">
          <span aria-hidden="true">▲</span> {doubt}
        </p>
      ))}
      <Entry head="What it says">
        <p>{data.title}</p>
        <dl class="facts">
          <div>
            <dt>pump</dt>
            <dd>
              <a href={address.pump(data.pump.id)}>{data.pump.name}</a>,{' '}
              <span class="unbroken">{data.pump.serialNumber}</span>
            </dd>
          </div>
          <div>
            <dt>issued</dt>
            <dd>
              {wallTime(data.issuedAtUtc)}, {data.signatory}
            </dd>
          </div>
          <div>
            <dt>rests on</dt>
            <dd>
              {data.runs.map(({ id, kind }) => (
                <span key={id} class="reason">
                  <a href={address.run(id)}>
                    {RUN_KIND_WORDS[kind]} {id}
                  </a>
                </span>
              ))}
            </dd>
          </div>
        </dl>
        <Demands demands={data.demands} />
        <p>
          <a href={pdfAddress(data.number)}>Open the PDF of {data.number}</a>
        </p>
      </Entry>
      {listed.standing === 'issued' && (
        <>
          <Entry head="Replace">
            <ReplaceForm data={data} onReplaced={setListed} />
          </Entry>
          <Entry head="Withdraw">
            <WithdrawForm data={data} onWithdrawn={setListed} />
          </Entry>
        </>
      )}
    </>
  );
}

async function askCertificate(number: string) {
  const listed = await ask.certificate(number);
  return listed === null ? null : { listed, data: await ask.certificateData(number) };
}

/** One certificate: what it says, whether it still stands, and what can be done about it. */
export function CertificatePlace({ id }: { readonly id: string }) {
  const answer = useAnswer(id, () => askCertificate(id));
  return (
    <Awaited answer={answer}>
      {(found) =>
        found === null ? (
          <>
            <h1>No such certificate</h1>
            <Refusal text={`No certificate has the number ${id}.`} />
          </>
        ) : (
          <Certificate {...found} />
        )
      }
    </Awaited>
  );
}
