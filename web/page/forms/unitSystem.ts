import type { UnitSystem } from '../../../analysis/preferredUnit.ts';
import { keptChoice } from '../shell/kept.ts';

/** In which units this person reads and types. */
export const unitSystem = keptChoice<UnitSystem>('units', ['metric', 'US'], 'metric');
