import type { CertificateListEntry, FoundPage } from '../../api.ts';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry } from '../shell/Entry.tsx';
import { address, queried, setQuery } from '../shell/route.ts';
import { useLatest } from '../shell/useLatest.ts';
import { CertificateTable } from './CertificateTable.tsx';
import { VerifyPassage } from './VerifyPassage.tsx';

const ON_A_PAGE = 20;
const ASKED = ['words', 'outcome', 'from', 'to'] as const;
const OUTCOMES = ['', 'pass', 'fail', 'not proven', 'measured'] as const;

function asked(): Readonly<Record<string, string>> {
  return Object.fromEntries(ASKED.map((name) => [name, queried(name) ?? '']));
}

function SearchForm() {
  const now = asked();
  const search = (event: SubmitEvent): void => {
    event.preventDefault();
    if (!(event.currentTarget instanceof HTMLFormElement)) return;
    const typed = new FormData(event.currentTarget);
    setQuery(Object.fromEntries(ASKED.map((name) => [name, String(typed.get(name) ?? '').trim()])));
  };
  return (
    <form onSubmit={search} class="fields" aria-label="find certificates" key={JSON.stringify(now)}>
      <label class="field">
        <span>words: pump, number, machine, who signed</span>
        <input type="text" name="words" defaultValue={now.words} maxLength={200} autocomplete="off" />
      </label>
      <label class="field">
        <span>outcome</span>
        <select name="outcome">
          {OUTCOMES.map((outcome) => (
            <option key={outcome} value={outcome} selected={outcome === now.outcome}>
              {outcome === '' ? 'any' : outcome}
            </option>
          ))}
        </select>
      </label>
      <label class="field">
        <span>from day (year-month-day)</span>
        <input type="text" name="from" defaultValue={now.from} pattern="\d{4}-\d{2}-\d{2}" autocomplete="off" />
      </label>
      <label class="field">
        <span>to day</span>
        <input type="text" name="to" defaultValue={now.to} pattern="\d{4}-\d{2}-\d{2}" autocomplete="off" />
      </label>
      <p class="button-row">
        <button type="submit">Search</button>
        {Object.values(now).some((value) => value !== '') && (
          <button type="button" class="quiet" onClick={() => setQuery({})}>
            show all
          </button>
        )}
      </p>
    </form>
  );
}

function certificatesIn({ found }: FoundPage): readonly CertificateListEntry[] {
  return found.flatMap((entry) => (entry.what === 'certificate' ? [entry.certificate] : []));
}

function Found({ page }: { readonly page: FoundPage }) {
  const list = certificatesIn(page);
  const wanted = asked();
  const isSearch = Object.values(wanted).some((value) => value !== '');
  if (page.total === 0) {
    return isSearch ? (
      <p>None fits all of that.</p>
    ) : (
      <p>
        None is filed yet. A certificate is filed from <a href={address.runs}>a run</a>, and a run is started at{' '}
        <a href={address.bench}>the bench</a>.
      </p>
    );
  }
  const pages = Math.ceil(page.total / ON_A_PAGE);
  const turn = (to: number) => (): void => setQuery({ ...wanted, page: to === 1 ? '' : String(to) });
  return (
    <>
      <CertificateTable list={list} />
      <p class="button-row">
        <span>
          {page.total} {page.total === 1 ? 'certificate' : 'certificates'}
          {pages > 1 && `, page ${page.page} of ${pages}`}
        </span>
        {page.page > 1 && (
          <button type="button" onClick={turn(page.page - 1)}>
            Newer
          </button>
        )}
        {page.page < pages && (
          <button type="button" onClick={turn(page.page + 1)}>
            Older
          </button>
        )}
      </p>
    </>
  );
}

/** Certificates that were filed, found by words, outcome and day; and the check of any that somebody brings. */
export function CertificatesPlace() {
  const criteria = {
    ...Object.fromEntries(Object.entries(asked()).filter(([, value]) => value !== '')),
    what: 'certificate',
    page: queried('page') ?? '1',
    pageSize: String(ON_A_PAGE),
  };
  const found = useLatest(JSON.stringify(criteria), () => ask.find(criteria));
  return (
    <>
      <h1>Certificates</h1>
      <Entry head="Find">
        <SearchForm />
        <Awaited answer={found}>{(page) => <Found page={page} />}</Awaited>
      </Entry>
      <Entry head="Verify">
        <VerifyPassage />
      </Entry>
    </>
  );
}
