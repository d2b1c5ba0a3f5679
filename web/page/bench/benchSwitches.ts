import { keptSwitch } from '../shell/kept.ts';

/** Readings and the next step alone, as large as the screen bears. */
export const largeType = keptSwitch('large-type', 'off');

/** A tone when a limit is passed. */
export const warningSound = keptSwitch('sound', 'on');

/** Keys 1 to 5 mark the record. */
export const markKeys = keptSwitch('mark-keys', 'on');
