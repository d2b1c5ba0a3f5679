/** What a grade on the can says: a band of kinematic viscosity at one temperature, and which edition says so. */
export type GradeLimits = {
  /** As it stands on the can: 'ISO VG 46', 'SAE 80W-90'. */
  readonly grade: string;
  /** Standard with its year: the limits of SAE grades have moved from edition to edition. */
  readonly edition: string;
  readonly temperatureK: number;
  readonly leastM2PerS: number;
  /** Null where the standard sets no upper limit. */
  readonly mostM2PerS: number | null;
  /** Whether an oil of just the upper limit still belongs to the grade. */
  readonly isMostIncluded: boolean;
};

/** Whether a viscosity at the grade's temperature lies within its limits. */
export function isWithinGrade(kinematicViscosityM2PerS: number, limits: GradeLimits): boolean {
  if (!(kinematicViscosityM2PerS >= limits.leastM2PerS)) return false;
  if (limits.mostM2PerS === null) return true;
  return limits.isMostIncluded
    ? kinematicViscosityM2PerS <= limits.mostM2PerS
    : kinematicViscosityM2PerS < limits.mostM2PerS;
}
