import { useEffect } from 'preact/hooks';
import { BenchPlace } from '../bench/BenchPlace.tsx';
import { sessionState } from '../live/liveBench.ts';
import { PumpsPlace } from '../pumps/PumpsPlace.tsx';
import { RunsPlace } from '../runs/RunsPlace.tsx';
import { clockFace } from '../words/moments.ts';
import { later } from './later.tsx';
import { address, type Place, place } from './route.ts';

const PumpPlace = later('pump', async () => (await import('../pumps/PumpPlace.tsx')).PumpPlace);
const PumpRecordPlace = later(
  'pump record',
  async () => (await import('../pumps/record/PumpRecordPlace.tsx')).PumpRecordPlace,
);
const StripPlace = later('strip sheet', async () => (await import('../pumps/strip/StripPlace.tsx')).StripPlace);
const CertificatesPlace = later(
  'certificates',
  async () => (await import('../certificates/CertificatesPlace.tsx')).CertificatesPlace,
);
const RunPlace = later('run', async () => (await import('../runs/RunPlace.tsx')).RunPlace);
const ComparePlace = later('compare', async () => (await import('../runs/compare/ComparePlace.tsx')).ComparePlace);

const CertificatePlace = later(
  'certificate',
  async () => (await import('../certificates/CertificatePlace.tsx')).CertificatePlace,
);
const InstrumentsPlace = later(
  'instruments',
  async () => (await import('../instruments/InstrumentsPlace.tsx')).InstrumentsPlace,
);
const InstrumentPlace = later(
  'instrument',
  async () => (await import('../instruments/InstrumentPlace.tsx')).InstrumentPlace,
);

const STRIP = [
  { title: 'Bench', href: address.bench, names: ['bench'] },
  { title: 'Pumps', href: address.pumps, names: ['pumps', 'pump', 'newPump', 'pumpRecord', 'stripSheet'] },
  { title: 'Runs', href: address.runs, names: ['runs', 'run', 'compare'] },
  { title: 'Certificates', href: address.certificates, names: ['certificates', 'certificate'] },
  { title: 'Instruments', href: address.instruments, names: ['instruments', 'instrument'] },
];

function PlaceStrip({ name }: { readonly name: Place['name'] }) {
  const openRun = sessionState.value?.openRun ?? null;
  return (
    <header class="strip">
      <p class="book-name">Slipwright</p>
      <nav aria-label="Places">
        <ul>
          {STRIP.map(({ title, href, names }) => (
            <li key={title}>
              <a href={href} aria-current={names.includes(name) ? 'page' : undefined}>
                {title}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      {openRun !== null && name !== 'bench' && (
        <p class="recording-note">
          <a href={address.bench}>recording {clockFace(openRun.elapsedS)}</a>
        </p>
      )}
    </header>
  );
}

function Opened({ at }: { readonly at: Place }) {
  switch (at.name) {
    case 'bench':
      return <BenchPlace />;
    case 'pumps':
      return <PumpsPlace />;
    case 'pump':
      return <PumpPlace id={at.id} />;
    case 'newPump':
      return <PumpRecordPlace id={null} />;
    case 'pumpRecord':
      return <PumpRecordPlace id={at.id} />;
    case 'stripSheet':
      return <StripPlace id={at.id} />;
    case 'certificate':
      return <CertificatePlace id={at.id} />;
    case 'instruments':
      return <InstrumentsPlace />;
    case 'instrument':
      return <InstrumentPlace id={at.id} />;
    case 'runs':
      return <RunsPlace />;
    case 'run':
      return <RunPlace id={at.id} />;
    case 'compare':
      return <ComparePlace ids={at.ids} />;
    case 'certificates':
      return <CertificatesPlace />;
    case 'nowhere':
      return (
        <>
          <h1>No such place</h1>
          <p>
            Nothing is kept at {at.address}. Go back to <a href={address.bench}>the bench</a>.
          </p>
        </>
      );
  }
}

/** The whole book: the strip of places and the one that is open. */
export function Book() {
  const at = place.value;
  const key = JSON.stringify(at);
  useEffect(() => {
    document.title = `${STRIP.find(({ names }) => names.includes(at.name))?.title ?? 'No such place'} · Slipwright`;
    window.scrollTo(0, 0);
  }, [key]);
  return (
    <>
      <button type="button" class="skip" onClick={skipToMain}>
        to the page
      </button>
      <PlaceStrip name={at.name} />
      <main id="main" tabIndex={-1} class="page">
        <Opened key={key} at={at} />
      </main>
    </>
  );
}

/** A link would do it too, but it would change the address, which is the place. */
function skipToMain(): void {
  document.getElementById('main')?.focus();
}
