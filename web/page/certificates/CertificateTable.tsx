import type { CertificateListEntry } from '../../api.ts';
import { pdfAddress } from '../runs/FileCertificate.tsx';
import { address } from '../shell/route.ts';
import { wallTime } from '../words/moments.ts';

const STANDING_WORDS: Readonly<Record<CertificateListEntry['standing'], string>> = {
  issued: 'stands',
  replaced: 'replaced',
  withdrawn: 'withdrawn',
};

/** Certificates as rows. */
export function CertificateTable({ list }: { readonly list: readonly CertificateListEntry[] }) {
  return (
    <table class="stacking" data-testid="certificate-table">
      <thead>
        <tr>
          <th scope="col">number</th>
          <th scope="col">filed</th>
          <th scope="col">pump</th>
          <th scope="col">outcome</th>
          <th scope="col">mark</th>
          <th scope="col">standing</th>
          <th scope="col">paper</th>
        </tr>
      </thead>
      <tbody>
        {list.map((entry) => (
          <tr key={entry.number}>
            <th scope="row">
              <a href={address.certificate(entry.number)}>{entry.number}</a>
            </th>
            <td>{wallTime(entry.issuedAtUtc)}</td>
            <td>
              <a href={address.pump(entry.pumpId)}>{entry.pumpName}</a>
            </td>
            <td class="verdict">{entry.outcome}</td>
            <td class={entry.isSpecimen ? 'specimen' : ''}>{entry.isSpecimen ? 'SPECIMEN' : '–'}</td>
            <td>{STANDING_WORDS[entry.standing]}</td>
            <td>
              <a href={pdfAddress(entry.number)}>PDF of {entry.number}</a>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
