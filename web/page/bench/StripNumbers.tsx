import { useState } from 'preact/hooks';
import { stripNews, strips } from '../live/liveBench.ts';
import { ChannelNumbers } from '../words/ChannelNumbers.tsx';

function Numbers({ barometerPa }: { readonly barometerPa: number }) {
  stripNews.value;
  const channels = Object.fromEntries(strips.channelNames.map((name) => [name, strips.column(name)]));
  return <ChannelNumbers channels={channels} barometerPa={barometerPa} isLive={true} />;
}

/** The strips as numbers, for those who do not see them; worked out only while they are open. */
export function StripNumbers({ barometerPa }: { readonly barometerPa: number }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>These strips as numbers</summary>
      {isOpen && <Numbers barometerPa={barometerPa} />}
    </details>
  );
}
