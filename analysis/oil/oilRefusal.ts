/** Why the data of an oil say no: which quantity, its value and the limit, in SI. */
export type OilRefusal =
  | {
      readonly code:
        | 'VISCOSITY_INDEX_NOT_DEFINED'
        | 'VISCOSITY_INDEX_OUT_OF_RANGE'
        | 'NOT_THINNER_WHEN_HOTTER'
        | 'TEMPERATURES_NOT_RISING'
        | 'TEMPERATURE_OUT_OF_RANGE'
        | 'BETWEEN_GRADES'
        | 'GRADE_WITHOUT_UPPER_LIMIT';
      readonly quantity: string;
      readonly value: number;
      readonly limit: number;
      readonly text: string;
    }
  | {
      readonly code: 'UNKNOWN_GRADE';
      readonly grade: string;
      readonly known: readonly string[];
      readonly text: string;
    };
