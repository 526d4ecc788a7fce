/** Two sounds, made here: a short high one for what was counted, a low one twice for what was not. */
let context: AudioContext | null = null;

type Beep = { hz: number; atS: number; forS: number };

const beeps: Record<'counted' | 'refused', readonly Beep[]> = {
  counted: [{ hz: 1320, atS: 0, forS: 0.06 }],
  refused: [
    { hz: 196, atS: 0, forS: 0.22 },
    { hz: 165, atS: 0.3, forS: 0.32 },
  ],
};

/** Where a page may not make sounds yet, word and shape are all there is. */
export function sound(of: keyof typeof beeps): void {
  try {
    context ??= new AudioContext();
    const { currentTime, destination } = context;
    for (const { hz, atS, forS } of beeps[of]) {
      const tone = new OscillatorNode(context, { type: of === 'counted' ? 'sine' : 'square', frequency: hz });
      const loudness = new GainNode(context, { gain: 0.2 });
      tone.connect(loudness).connect(destination);
      tone.start(currentTime + atS);
      tone.stop(currentTime + atS + forS);
    }
  } catch {
    context = null;
  }
}
