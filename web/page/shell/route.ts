import { signal } from '@preact/signals';

/** A place in the book, as it stands in the address bar behind the '#'. */
export type Place =
  | { readonly name: 'bench' }
  | { readonly name: 'pumps' }
  | { readonly name: 'pump'; readonly id: string }
  | { readonly name: 'runs' }
  | { readonly name: 'run'; readonly id: string }
  | { readonly name: 'certificates' }
  | { readonly name: 'nowhere'; readonly address: string };

function placeOf(hash: string): Place {
  const [name = '', id = '', ...rest] = hash.replace(/^#?\/?/, '').split('/');
  if (rest.length > 0) return { name: 'nowhere', address: hash };
  if (id === '') {
    if (name === '' || name === 'bench') return { name: 'bench' };
    if (name === 'pumps' || name === 'runs' || name === 'certificates') return { name };
  }
  if (name === 'pumps') return { name: 'pump', id: decodeURIComponent(id) };
  if (name === 'runs') return { name: 'run', id: decodeURIComponent(id) };
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
  runs: '#/runs',
  run: (id: string): string => `#/runs/${encodeURIComponent(id)}`,
  certificates: '#/certificates',
};

export function goTo(hash: string): void {
  location.hash = hash;
}
