let audio: AudioContext | null = null;

const PULSES = 3;
const PULSE_S = 0.18;
const PAUSE_S = 0.12;
const PITCH_HZ = 880;

/** Three short tones. A browser lets nothing sound before a hand has touched its page: then it stays silent. */
export function soundTone(): void {
  if (!navigator.userActivation.hasBeenActive) return;
  audio ??= new AudioContext();
  const { currentTime, destination } = audio;
  for (let pulse = 0; pulse < PULSES; pulse += 1) {
    const startS = currentTime + pulse * (PULSE_S + PAUSE_S);
    const tone = new OscillatorNode(audio, { frequency: PITCH_HZ });
    const loudness = new GainNode(audio, { gain: 0.3 });
    tone.connect(loudness).connect(destination);
    tone.start(startS);
    tone.stop(startS + PULSE_S);
  }
}
