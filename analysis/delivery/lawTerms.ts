/** Terms of q = V_i n − C_l Δp/µ − C_t √(2Δp/ρ) − C_np n Δp. */
export const LAW_TERMS = [
  'derivedCapacityM3PerRev',
  'laminarSlipM3',
  'orificeSlipM2',
  'speedPressureSlipM3PerPa',
] as const;
export type LawTerm = (typeof LAW_TERMS)[number];
