/**
 * A result that may be a reasoned "no". The pump or the data say no: that is a result, not an exception.
 */
export type Outcome<Value, Reason> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly reason: Reason };

export function yes<Value>(value: Value): { readonly ok: true; readonly value: Value } {
  return { ok: true, value };
}

export function no<Reason>(reason: Reason): { readonly ok: false; readonly reason: Reason } {
  return { ok: false, reason };
}

/** A "no" with its code and its words alone, without what only its own module reads. */
export function refusalOf({ code, text }: { readonly code: string; readonly text: string }): {
  readonly ok: false;
  readonly reason: { readonly code: string; readonly text: string };
} {
  return no({ code, text });
}
