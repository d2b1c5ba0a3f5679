import { formatStated, printFixed } from '../../formatStated.ts';
import type { DryLiftResult } from '../../result.ts';
import type { Stated } from '../../uncertainty/stated.ts';
import { unitOf } from '../../units.ts';

function metres(stated: Stated): string {
  const { value, expandedUncertainty } = formatStated(stated, unitOf('m'));
  return `${value} ± ${expandedUncertainty} m`;
}

/** What was seen in a clear riser, what it proves, and whether the suction channel agrees; a sentence or two a reading. */
export function riserWords({ riser }: Pick<DryLiftResult, 'riser'>): readonly string[] {
  return riser.map(({ sinceMotorStartS, heightM, carriedM, verdict }) => {
    const when =
      sinceMotorStartS === null ? 'at its highest' : `${printFixed(sinceMotorStartS, 1)} s after motor start`;
    const hasProved =
      (sinceMotorStartS === null || sinceMotorStartS > 0) && heightM.value > heightM.expandedUncertainty;
    const seen = `Seen in the clear riser ${when}: oil stood ${metres(heightM)} over the tank${hasProved ? ', and that lift is proven' : ''}.`;
    if (carriedM === null) return `${seen} The suction channel was not held against it: oil was flowing into the pump.`;
    const said = `By the suction it stood ${metres(carriedM)}`;
    return verdict === 'agrees'
      ? `${seen} ${said}: the two agree.`
      : `${seen} ${said}: the two contradict each other. Zero the suction channel, read the barometer again, or look for gas in its tube.`;
  });
}
