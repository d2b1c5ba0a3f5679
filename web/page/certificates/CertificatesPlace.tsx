import { pdfAddress } from '../runs/FileCertificate.tsx';
import { ask } from '../shell/ask.ts';
import { Awaited } from '../shell/Entry.tsx';
import { address } from '../shell/route.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { wallTime } from '../words/moments.ts';

/** Every certificate that was filed, newest first. */
export function CertificatesPlace() {
  const certificates = useAnswer('certificates', ask.certificates);
  return (
    <>
      <h1>Certificates</h1>
      <Awaited answer={certificates}>
        {(list) =>
          list.length === 0 ? (
            <p>
              None is filed yet. A certificate is filed from <a href={address.runs}>a run</a>.
            </p>
          ) : (
            <table class="stacking" data-testid="certificate-table">
              <thead>
                <tr>
                  <th scope="col">number</th>
                  <th scope="col">filed</th>
                  <th scope="col">pump</th>
                  <th scope="col">outcome</th>
                  <th scope="col">mark</th>
                </tr>
              </thead>
              <tbody>
                {list.map((entry) => (
                  <tr key={entry.number}>
                    <th scope="row">
                      <a href={pdfAddress(entry.number)}>{entry.number} (PDF)</a>
                    </th>
                    <td>{wallTime(entry.issuedAtUtc)}</td>
                    <td>
                      <a href={address.pump(entry.pumpId)}>{entry.pumpName}</a>
                    </td>
                    <td class="verdict">{entry.outcome}</td>
                    <td class={entry.isSpecimen ? 'specimen' : ''}>{entry.isSpecimen ? 'SPECIMEN' : '–'}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          )
        }
      </Awaited>
    </>
  );
}
