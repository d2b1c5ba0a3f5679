import type { Outcome } from '../outcome.ts';
import type { StripLimit, StripSheet } from '../records/stripSheet.ts';
import type { Clearance } from '../strip/clearance.ts';
import { endFloatOf } from '../strip/endFloat.ts';
import { judgeMeasurement } from '../strip/judgeMeasurement.ts';
import { bushClearanceOf, tipClearanceOf } from '../strip/radialClearances.ts';
import type { StripRefusal } from '../strip/stripRefusal.ts';
import type { CertificateAsBuilt } from './asBuiltSchema.ts';
import { statedOnly } from './certificateStated.ts';
import type { CertifiedRun } from './certifiedRun.ts';

type Line = CertificateAsBuilt['clearances'][number];

/** A clearance that cannot be had from the sheet's numbers is told of by the run's findings. */
function line(name: string, clearance: Outcome<Clearance, StripRefusal>, limit: StripLimit | null): readonly Line[] {
  if (!clearance.ok) return [];
  const { stated, plainly } = judgeMeasurement(clearance.value, limit);
  return [{ name, clearanceM: statedOnly(stated), plainly }];
}

function clearancesOf({ endFloat, tipClearances, shaftsInBushes }: StripSheet): Line[] {
  return [
    ...(endFloat === null ? [] : line('end float, all of it', endFloatOf(endFloat), endFloat.limit)),
    ...tipClearances.flatMap((tip) => line(`tips of the ${tip.part}, radial`, tipClearanceOf(tip), tip.limit)),
    ...shaftsInBushes.flatMap((bush, index) =>
      line(`${bush.where}, shaft in bush, diametral`, bushClearanceOf(bush, index), bush.limit),
    ),
  ];
}

/** The strip sheets that were in force at the runs, each once, in the order of the runs. */
export function asBuiltParts(runs: readonly CertifiedRun[]): CertificateAsBuilt[] {
  const sheets = new Map<string, StripSheet>();
  for (const { run } of runs) {
    if (run.stripSheet !== null) sheets.set(`${run.stripSheet.id}/${run.stripSheet.version}`, run.stripSheet);
  }
  return [...sheets.values()].map((sheet) => ({ stripSheet: sheet, clearances: clearancesOf(sheet) }));
}
