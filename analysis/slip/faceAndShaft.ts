/** Conductances from delivery to suction at one face of a gear, by the way the oil takes. */
export type FaceAndShaft = { readonly facesM3: number; readonly shaftM3: number };

/**
 * One face of a gear and the bush behind it. Half the circumference stands at delivery pressure, half at suction; oil
 * comes in over the face to the ring round the shaft and leaves it over the other half of the face or along the bush.
 * With K the face's conductance all round and B the bush's: ring pressure p = (K/2) Δp/(K + B); over the face (K/2) p/µ,
 * along the shaft B p/µ.
 *
 * @param faceM3 - K, between root circle and shaft [m³]
 * @param bushM3 - B, to where it drains; zero: blind [m³]
 * @returns conductances of both ways for the whole pressure difference [m³]
 *
 * Source: derived here by continuity at the ring; no published source. Limits: blind K/4, wide open bush K/2 in all.
 *
 * @example faceAndShaft(4e-12, 0).facesM3 // 1e-12: a blind bush leaves a quarter
 */
export function faceAndShaft(faceM3: number, bushM3: number): FaceAndShaft {
  const sumM3 = faceM3 + bushM3;
  if (sumM3 === 0) return { facesM3: 0, shaftM3: 0 };
  const ringShare = faceM3 / 2 / sumM3;
  return { facesM3: (faceM3 / 2) * ringShare, shaftM3: bushM3 * ringShare };
}
