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
  | { readonly name: 'certificates' }
  | { readonly name: 'certificate'; readonly id: string }
  | { readonly name: 'instruments' }
  | { readonly name: 'instrument'; readonly id: string }
  | { readonly name: 'nowhere'; readonly address: string };

function placeOf(hash: string): Place {
  const [name = '', id = '', ...rest] = hash.replace(/^#?\/?/, '').split('/');
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
  return { name: 'nowhere', address: hash };
}

export const place = signal<Place>(placeOf(location.hash));

window.addEventListener('hashchange', () => {
  place.value = placeOf(location.hash);
});

export const address = {
  bench: '#/bench',
  pumps: '#/pumps',
  pump: (id: string): string => `#/pumps/${encodeURIComponent(id)}`,
  newPump: '#/new-pump',
  pumpRecord: (id: string): string => `#/pumps/${encodeURIComponent(id)}/record`,
  stripSheet: (id: string): string => `#/pumps/${encodeURIComponent(id)}/strip`,
  runs: '#/runs',
  run: (id: string): string => `#/runs/${encodeURIComponent(id)}`,
  certificates: '#/certificates',
  certificate: (number: string): string => `#/certificates/${encodeURIComponent(number)}`,
  instruments: '#/instruments',
  instrument: (channel: string): string => `#/instruments/${encodeURIComponent(channel)}`,
};

export function goTo(hash: string): void {
  location.hash = hash;
}
