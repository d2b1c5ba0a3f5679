import { formatStated } from '../../../analysis/formatStated.ts';
import type { Stated } from '../../../analysis/uncertainty/stated.ts';
import { unitOf } from '../../../analysis/units.ts';

const PLAIN = unitOf('1');

/** A value in its SI unit for which no workshop unit exists: (2.07 ± 0.05) · 10⁻¹² m³. */
export function PowerOfTen({ stated, unit }: { readonly stated: Stated; readonly unit: string }) {
  const largest = Math.max(Math.abs(stated.value), stated.expandedUncertainty);
  if (largest === 0) return <>0</>;
  const exponent = Math.floor(Math.log10(largest));
  const scale = 10 ** exponent;
  const { value, expandedUncertainty } = formatStated(
    { value: stated.value / scale, expandedUncertainty: stated.expandedUncertainty / scale },
    PLAIN,
  );
  return (
    <>
      ({value} <span class="uncertainty">± {expandedUncertainty}</span>) · 10
      <sup>{String(exponent).replace('-', '−')}</sup> <span class="unit">{unit}</span>
    </>
  );
}
