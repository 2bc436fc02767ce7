import { type Tone, toneSec } from '#platform/tones.ts';

/** A sound that is playing or waits for its time. */
export interface Voice {
  /** Ends it at an instant of its context's clock, without a click. */
  stop(atSec: number): void;
}

const fadeSec = 0.025;

/**
 * Puts a sound on the context's own clock, so that no timer has to wake for it. Works on any
 * context, also on one that renders without a speaker.
 */
export function voiceAt(context: BaseAudioContext, tone: Tone, atSec: number): Voice {
  const oscillator = context.createOscillator();
  oscillator.setPeriodicWave(waveOf(context, tone.partials));
  oscillator.frequency.value = tone.fundamentalHz;
  const envelope = context.createGain();
  shape(envelope.gain, tone, atSec);
  const fader = context.createGain();
  oscillator.connect(envelope).connect(fader).connect(context.destination);
  oscillator.start(atSec + Math.min(...tone.pulses.map((pulse) => pulse.atSec)));
  oscillator.stop(atSec + toneSec(tone));
  return {
    stop(endSec) {
      fader.gain.setValueAtTime(1, endSec);
      fader.gain.linearRampToValueAtTime(0, endSec + fadeSec);
      oscillator.stop(endSec + fadeSec);
    },
  };
}

function shape(gain: AudioParam, { pulses, rampSec }: Tone, atSec: number): void {
  gain.setValueAtTime(0, 0);
  for (const pulse of pulses) {
    const riseSec = atSec + pulse.atSec;
    const fallSec = riseSec + pulse.lengthSec;
    gain.setValueAtTime(0, riseSec);
    gain.linearRampToValueAtTime(pulse.level, riseSec + rampSec);
    gain.setValueAtTime(pulse.level, fallSec - rampSec);
    gain.linearRampToValueAtTime(0, fallSec);
  }
}

/** A wave takes half a megabyte in some browsers: one for each colour of tone is enough. */
const waves = new WeakMap<BaseAudioContext, Map<readonly number[], PeriodicWave>>();

/**
 * The wave of a tone. Its phases are Schroeder's (1970, from memory): they make a flat wave, which a
 * small speaker plays louder before it distorts.
 */
function waveOf(context: BaseAudioContext, partials: readonly number[]): PeriodicWave {
  const own = waves.get(context) ?? new Map<readonly number[], PeriodicWave>();
  waves.set(context, own);
  const made = own.get(partials);
  if (made) return made;
  const angles = partials.map((_, index) => (-Math.PI * index * (index + 1)) / partials.length);
  const of = (part: (angle: number) => number) =>
    new Float32Array([0, ...partials.map((level, index) => level * part(angles[index] ?? 0))]);
  const wave = context.createPeriodicWave(of(Math.cos), of(Math.sin));
  own.set(partials, wave);
  return wave;
}
