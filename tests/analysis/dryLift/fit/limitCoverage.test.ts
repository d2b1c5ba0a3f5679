import { describe, expect, it } from 'vitest';
import { estimateDryLift } from '../../../../analysis/dryLift/estimate/dryLiftLimit.ts';
import { fitDryPump } from '../../../../analysis/dryLift/fit/fitDryPump.ts';
import { binomialBelow } from '../../../coverage/coverage.ts';
import { EVIDENCE, recordDryPump, SPEED_REV_PER_S } from '../../../coverage/dryLiftRecord.ts';
import { accepted } from '../../../support/accepted.ts';

const COUNT = 12;
const FIRST_SEED = 4000;
const RARE = 1e-3;

// The practice bench has a physics of its own: polytropic gas, entry loss, films, none of it shared with the model fitted.
describe('the limit told from dry starts of practice benches with instruments and papers off as stated', () => {
  it(`holds the truth about as often as 95 % of ${COUNT} benches would, seeds ${FIRST_SEED} on`, () => {
    let [held, judged] = [0, 0];
    for (let index = 0; index < COUNT; index += 1) {
      const { input, truth } = recordDryPump(FIRST_SEED + index, EVIDENCE[index % EVIDENCE.length] ?? 'lift');
      const fit = fitDryPump(accepted(input));
      if (!fit.ok) continue;
      const { lower, upper } = estimateDryLift(fit.value, SPEED_REV_PER_S).limitM;
      judged += 1;
      if (lower <= truth.limitM && truth.limitM <= upper) held += 1;
    }
    expect(judged).toBeGreaterThanOrEqual(COUNT - 2);
    expect(binomialBelow(held, judged, 0.95)).toBeGreaterThan(RARE);
  });
});
