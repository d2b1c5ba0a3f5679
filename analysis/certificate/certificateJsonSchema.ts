import { z } from 'zod';
import { certificateData } from './certificateData.ts';

/**
 * The published JSON Schema (draft 2020-12) of a certificate's data, as they are attached and signed.
 *
 * @returns the schema as plain JSON [-]
 */
export function certificateJsonSchema(): Record<string, unknown> {
  return {
    $id: 'slipwright.certificate/1',
    title: 'Data of a certificate',
    description:
      'All numbers are SI, the unit in the name of the key; shares and efficiencies are ratios [1]. Pressures are absolute unless the key says differential. Members that are not required were added later: older certificates lack them.',
    // Of what may be read: a calibration is written as it was stated.
    ...z.toJSONSchema(certificateData, { target: 'draft-2020-12', io: 'input' }),
  };
}
