import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import { plain } from './printed.ts';
import type { Sheet } from './sheet.ts';
import { INK, QUIET_INK, STYLES } from './style.ts';
import { type Align, drawText } from './textLayout.ts';

export const CIRCUIT_HEIGHT_PT = 122;

type Tapping = { readonly heightM: number; readonly filling: string } | null;

function tappingOf({ benches }: CertificateData, channel: 'suctionPressure' | 'deliveryPressure'): Tapping {
  const tapping = benches[0]?.instruments.find((instrument) => instrument.channel === channel)?.tapping ?? null;
  return tapping === null ? null : { heightM: tapping.heightOverInletM.value, filling: tapping.tubeFilledWith };
}

function heightWords(tapping: Tapping): string {
  if (tapping === null) return 'at the height of the inlet';
  const { heightM, filling } = tapping;
  const side = heightM < 0 ? 'below' : 'above';
  return `${plain(Math.abs(heightM), 'mm', 3)} ${side} the inlet,\nits tube full of ${filling}`;
}

/** Places in the sketch, as shares of its width and in points from its top. */
const TANK_Y = 94;
const PUMP_Y = 48;
const PUMP_R = 10;
const SUCTION_TAP = 0.2;
const DELIVERY_TAP = 0.53;
/** Where a tapping's stem ends, under its words. */
const STEM_TOP = 30;

/** The bench circuit, not to scale: tank, suction pipe, pump, tapping points with their heights, valve and meter. */
export function drawCircuit(sheet: Sheet, data: CertificateData): void {
  const { document, xPt, yPt, widthPt } = sheet;
  const at = (share: number) => xPt + share * widthPt;
  const y = (fromTopPt: number) => yPt + fromTopPt;
  const lift = data.conditions[0]?.setUp.staticLiftM.value ?? 0;
  const suction = tappingOf(data, 'suctionPressure');
  const delivery = tappingOf(data, 'deliveryPressure');
  const [pipeX, pumpX, valveX, meterX, backX] = [at(0.12), at(0.35), at(0.64), at(0.8), at(0.94)];
  const label = (text: string, x: number, top: number, align: Align = 'left', quiet = false): void => {
    const block = sheet.lay(text, quiet ? STYLES.quietFigures : STYLES.figures, widthPt);
    drawText(document, block, x, y(top), 0, align);
  };
  const alt = `Circuit, not to scale: oil is drawn from the tank ${plain(lift, 'm', 3)} up to the pump; suction pressure is taken ${heightWords(suction)}, delivery pressure ${heightWords(delivery)}; then valve, flow meter, and back to the tank.`;
  sheet.tagged(
    'Figure',
    () => {
      document.lineWidth(0.9).strokeColor(INK).lineJoin('round');
      // Pipes: up from the tank, through the pump, valve and meter, and back.
      document
        .moveTo(pipeX, y(TANK_Y + 14))
        .lineTo(pipeX, y(PUMP_Y))
        .lineTo(pumpX - PUMP_R, y(PUMP_Y))
        .stroke();
      document
        .moveTo(pumpX + PUMP_R, y(PUMP_Y))
        .lineTo(backX, y(PUMP_Y))
        .lineTo(backX, y(TANK_Y + 6))
        .stroke();
      // Tank with its oil.
      document
        .moveTo(at(0), y(TANK_Y - 10))
        .lineTo(at(0), y(TANK_Y + 22))
        .lineTo(at(1), y(TANK_Y + 22));
      document.lineTo(at(1), y(TANK_Y - 10)).stroke();
      document.lineWidth(0.5).strokeColor(QUIET_INK);
      document.moveTo(at(0), y(TANK_Y)).lineTo(at(1), y(TANK_Y)).stroke();
      // Pump: a circle with its arrowhead towards delivery.
      document.lineWidth(0.9).strokeColor(INK).circle(pumpX, y(PUMP_Y), PUMP_R).fillAndStroke('#ffffff', INK);
      document.polygon([pumpX + PUMP_R, y(PUMP_Y)], [pumpX + 3, y(PUMP_Y - 4)], [pumpX + 3, y(PUMP_Y + 4)]).fill(INK);
      // Valve: two triangles; meter: a circle with a stroke.
      document.polygon([valveX - 6, y(PUMP_Y - 4)], [valveX, y(PUMP_Y)], [valveX - 6, y(PUMP_Y + 4)]);
      document.polygon([valveX + 6, y(PUMP_Y - 4)], [valveX, y(PUMP_Y)], [valveX + 6, y(PUMP_Y + 4)]);
      document.fillAndStroke('#ffffff', INK);
      document.circle(meterX, y(PUMP_Y), 7).fillAndStroke('#ffffff', INK);
      document
        .moveTo(meterX - 4, y(PUMP_Y + 4))
        .lineTo(meterX + 4, y(PUMP_Y - 4))
        .stroke();
      // Tapping points.
      for (const x of [at(SUCTION_TAP), at(DELIVERY_TAP)]) {
        document.lineWidth(0.6).moveTo(x, y(PUMP_Y)).lineTo(x, y(STEM_TOP)).stroke();
        document.circle(x, y(PUMP_Y), 1.6).fill(INK);
      }
      // The lift, measured from the oil's surface to the inlet.
      const liftX = at(0.05);
      document.lineWidth(0.5).strokeColor(QUIET_INK).moveTo(liftX, y(TANK_Y)).lineTo(liftX, y(PUMP_Y)).stroke();
      for (const end of [TANK_Y, PUMP_Y])
        document
          .moveTo(liftX - 3, y(end))
          .lineTo(liftX + 3, y(end))
          .stroke();
      label(`suction pressure,\n${heightWords(suction)}`, at(SUCTION_TAP) - 4, 0);
      label(`delivery pressure,\n${heightWords(delivery)}`, at(DELIVERY_TAP) - 4, 0);
      label('pump', pumpX, PUMP_Y + 13, 'centre', true);
      label('valve', valveX, PUMP_Y + 9, 'centre', true);
      label('flow meter', meterX, PUMP_Y + 9, 'centre', true);
      label(`static lift ${plain(lift, 'm', 3)}`, pipeX + 5, PUMP_Y + 26);
      label('tank', at(0.5), TANK_Y + 7, 'centre', true);
      label('not to scale', at(1) - 2, TANK_Y + 7, 'right', true);
    },
    alt,
  );
}
