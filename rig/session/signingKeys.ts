import {
  defaultKeyFolder,
  openKeys,
  SPECIMEN_KEY_FILE,
  WORKSHOP_KEY_FILE,
  type WorkshopKeys,
} from '../certificate/keys.ts';

/**
 * The key that signs: specimens from the practice bench have one of their own, so that the workshop's never stands under
 * them. Made at first use.
 *
 * @param workshop - named in the key's certificate where it is made [-]
 * @param at - now [-]
 * @param isSpecimen - from the practice bench [-]
 * @throws KeyError if the key cannot be made or used
 */
export function keysFor(workshop: string, at: Date, isSpecimen: boolean): Promise<WorkshopKeys> {
  return openKeys(workshop, at, defaultKeyFolder(), isSpecimen ? SPECIMEN_KEY_FILE : WORKSHOP_KEY_FILE);
}
