import { signal } from '@preact/signals';
import type { UnitSystem } from '../../../analysis/preferredUnit.ts';

/** In which units this person reads and types. */
export const unitSystem = signal<UnitSystem>('metric');
