import { rmSync } from 'node:fs';
import { expect, it } from 'vitest';
import { openArchive } from '../../../rig/archive/openArchive.ts';
import { analyseStoredRun } from '../../../rig/session/analyseStoredRun.ts';
import { dryEvidence } from '../../../rig/session/dryEvidence.ts';
import { excludeHold } from '../../../rig/session/excludeHold.ts';
import { accepted } from '../../support/accepted.ts';
import { DELIVERY_RUN, DRY_RUN, filedArchive } from '../../support/filedArchive.ts';

it('takes the derived capacity of the delivery run as it is now, a hold taken out since', async () => {
  const { folder, directory } = await filedArchive();
  const archive = openArchive(directory);
  try {
    const limitM = (): number => {
      const evidence = dryEvidence(archive, DRY_RUN);
      if (evidence === null) throw new Error('no dry start');
      const { capacityRunId, limits } = accepted(evidence.together);
      expect(capacityRunId).toBe(DELIVERY_RUN);
      return limits[0]?.limitM.value ?? Number.NaN;
    };
    const { result } = analyseStoredRun(archive, DELIVERY_RUN);
    const before = limitM();
    expect(limitM()).toBe(before);
    const hold = result.delivery?.holds[0];
    if (hold === undefined) throw new Error('no hold');
    const stretch = { person: 'A. Fitter (invented)', fromS: hold.startS, toS: hold.endS };
    excludeHold(archive, DELIVERY_RUN, { ...stretch, isExcluded: true, reason: 'valve touched' });
    expect(limitM()).not.toBe(before);
  } finally {
    archive.close();
    rmSync(folder, { recursive: true });
  }
});
