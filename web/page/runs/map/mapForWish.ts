import { lawSpeaker } from '../../../../analysis/efficiency/lawSpeaker.ts';
import { mapAt } from '../../../../analysis/efficiency/mapAt.ts';
import type { DeliveryResult, Fitted, SlipLaw } from '../../../../analysis/result.ts';
import type { RunView } from '../../../api.ts';
import { type MapWish, wishedOil } from './mapOils.ts';

export type AnyMap = Extract<Fitted['map'], { ok: true }>['value'];
export type MapOutcome =
  | { readonly ok: true; readonly value: AnyMap }
  | { readonly ok: false; readonly reason: { readonly text: string } };

/** The efficiency map at the oil and temperature that a person names, computed here from the kept law. */
export function mapForWish(view: RunView, result: DeliveryResult, law: SlipLaw, wish: MapWish): MapOutcome {
  const oil = wishedOil(wish, view.run.oil);
  if (!oil.ok) return oil;
  const drain = result.fitted?.drain;
  const speaker = lawSpeaker(
    view.run,
    { coefficients: law.coefficients, uncertain: law.uncertain, range: law.range },
    drain?.ok === true ? { drainCoefficientM3: drain.value.uncertain } : null,
    Object.values(view.result.sources),
    oil.value,
  );
  return mapAt(speaker, view.result.theory.sweptVolume, wish.oilTemperatureK);
}
