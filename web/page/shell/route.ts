import { signal } from '@preact/signals';

/** A place in the book, as it stands in the address bar behind the '#'. */
export type Place =
  | { readonly name: 'bench' }
  | { readonly name: 'pumps' }
  | { readonly name: 'pump'; readonly id: string }
  | { readonly name: 'newPump' }
  | { readonly name: 'pumpRecord'; readonly id: string }
  | { readonly name: 'stripSheet'; readonly id: string }
  | { readonly name: 'runs' }
  | { readonly name: 'run'; readonly id: string }
  | { readonly name: 'compare'; readonly ids: readonly string[] }
  | { readonly name: 'certificates' }
  | { readonly name: 'certificate'; readonly id: string }
  | { readonly name: 'instruments' }
  | { readonly name: 'instrument'; readonly id: string }
  | { readonly name: 'nowhere'; readonly address: string };

function placeOf(hash: string): Place {
  const [name = '', id = '', ...rest] = pathOf(hash)
    .replace(/^#?\/?/, '')
    .split('/');
  if (name === 'pumps' && rest.length === 1) {
    if (rest[0] === 'record') return { name: 'pumpRecord', id: decodeURIComponent(id) };
    if (rest[0] === 'strip') return { name: 'stripSheet', id: decodeURIComponent(id) };
  }
  if (rest.length > 0) return { name: 'nowhere', address: hash };
  if (id === '') {
    if (name === '' || name === 'bench') return { name: 'bench' };
    if (name === 'new-pump') return { name: 'newPump' };
    if (name === 'pumps' || name === 'runs' || name === 'certificates' || name === 'instruments') return { name };
  }
  if (name === 'pumps') return { name: 'pump', id: decodeURIComponent(id) };
  if (name === 'runs') return { name: 'run', id: decodeURIComponent(id) };
  if (name === 'certificates') return { name: 'certificate', id: decodeURIComponent(id) };
  if (name === 'instruments') return { name: 'instrument', id: decodeURIComponent(id) };
  if (name === 'compare') {
    return {
      name,
      ids: id
        .split(',')
        .filter((each) => each !== '')
        .map(decodeURIComponent),
    };
  }
  return { name: 'nowhere', address: hash };
}

function pathOf(hash: string): string {
  return hash.split('?', 1)[0] ?? '';
}

function queryOf(hash: string): string {
  return hash.slice(pathOf(hash).length + 1);
}

export const place = signal<Place>(placeOf(location.hash));

/** What the address says of the place besides, behind the '?': a stretch of time to look at. */
const query = signal(queryOf(location.hash));

function follow(): void {
  const next = placeOf(location.hash);
  if (JSON.stringify(next) !== JSON.stringify(place.value)) place.value = next;
  query.value = queryOf(location.hash);
}

window.addEventListener('hashchange', follow);
window.addEventListener('popstate', follow);

/** What the address says under a name; null where it says nothing. */
export function queried(name: string): string | null {
  return new URLSearchParams(query.value).get(name);
}

/** A stretch of time as it stands in an address. */
function spanQuery([fromS, toS]: readonly [number, number], decimals: number): string {
  return `from=${fromS.toFixed(decimals)}&to=${toS.toFixed(decimals)}`;
}

/** Writes the stretch that is looked at into the address, as a step that Back takes back; null: all of it. */
export function setQueriedSpan(span: readonly [number, number] | null, decimals: number): void {
  const next = span === null ? '' : spanQuery(span, decimals);
  if (next === query.value) return;
  history.pushState(null, '', `${pathOf(location.hash)}${next === '' ? '' : `?${next}`}`);
  query.value = next;
}

/** What a search asks for, in the address: Back brings the one before. */
export function setQuery(wanted: Readonly<Record<string, string>>): void {
  const next = new URLSearchParams(Object.entries(wanted).filter(([, value]) => value !== '')).toString();
  if (next === query.value) return;
  history.pushState(null, '', `${pathOf(location.hash)}${next === '' ? '' : `?${next}`}`);
  query.value = next;
}

export const address = {
  bench: '#/bench',
  pumps: '#/pumps',
  pump: (id: string): string => `#/pumps/${encodeURIComponent(id)}`,
  newPump: '#/new-pump',
  pumpRecord: (id: string): string => `#/pumps/${encodeURIComponent(id)}/record`,
  stripSheet: (id: string): string => `#/pumps/${encodeURIComponent(id)}/strip`,
  runs: '#/runs',
  run: (id: string): string => `#/runs/${encodeURIComponent(id)}`,
  /** A run, looked at between two moments [s]. */
  stretch: (id: string, fromS: number, toS: number): string =>
    `#/runs/${encodeURIComponent(id)}?${spanQuery([fromS, toS], 2)}`,
  compare: (ids: readonly string[]): string => `#/compare/${ids.map(encodeURIComponent).join(',')}`,
  certificates: '#/certificates',
  certificate: (number: string): string => `#/certificates/${encodeURIComponent(number)}`,
  instruments: '#/instruments',
  instrument: (channel: string): string => `#/instruments/${encodeURIComponent(channel)}`,
};

export function goTo(hash: string): void {
  location.hash = hash;
}
