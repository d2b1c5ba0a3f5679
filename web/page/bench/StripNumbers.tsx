import { useState } from 'preact/hooks';
import { stripRows } from '../live/liveBench.ts';
import { ChannelNumbers } from '../words/ChannelNumbers.tsx';

/** The strips as numbers, for those who do not see them; worked out only while they are open. */
export function StripNumbers({ barometerPa }: { readonly barometerPa: number }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>These strips as numbers</summary>
      {isOpen && <ChannelNumbers channels={stripRows.value.channels} barometerPa={barometerPa} isLive={true} />}
    </details>
  );
}
