import type { Tone } from '#platform/tones.ts';
import { voiceAt } from '#platform/voice.ts';

export const sampleHz = 48_000;

/** Renders sounds without a speaker, each at its time. */
export async function heardOf(
  lengthSec: number,
  ...sounds: readonly (readonly [tone: Tone, atSec: number])[]
): Promise<Float32Array> {
  const context = new OfflineAudioContext(1, Math.ceil(lengthSec * sampleHz), sampleHz);
  for (const [tone, atSec] of sounds) voiceAt(context, tone, atSec);
  const heard = await context.startRendering();
  return heard.getChannelData(0);
}

/** The loudest sample around each millisecond. */
function envelopeOf(samples: Float32Array): number[] {
  const half = sampleHz / 1_000;
  return Array.from({ length: Math.floor(samples.length / half) }, (_, index) =>
    samples
      .subarray(Math.max(0, (index - 1) * half), (index + 1) * half)
      .reduce((most, sample) => Math.max(most, Math.abs(sample)), 0),
  );
}

/** Stretches of sound, told apart by 50 ms of silence or more. */
export function pulsesIn(
  samples: Float32Array,
): { fromMs: number; untilMs: number; peak: number }[] {
  const pulses: { fromMs: number; untilMs: number; peak: number }[] = [];
  for (const [ms, level] of envelopeOf(samples).entries()) {
    if (level < 0.005) continue;
    const last = pulses.at(-1);
    if (!last || ms - last.untilMs > 50) pulses.push({ fromMs: ms, untilMs: ms, peak: level });
    else Object.assign(last, { untilMs: ms, peak: Math.max(last.peak, level) });
  }
  return pulses;
}

/** How long a pulse takes from a tenth of its peak to nine tenths, ms. */
export function riseMs(samples: Float32Array, pulse: { fromMs: number; untilMs: number }): number {
  const levels = envelopeOf(samples).slice(pulse.fromMs, pulse.untilMs + 1);
  const peak = Math.max(...levels);
  const reaches = (share: number) => levels.findIndex((level) => level >= share * peak);
  return reaches(0.9) - reaches(0.1);
}

/** How strong one frequency is in a stretch of sound (Goertzel's sum, Hann window). */
export function strengthAt(samples: Float32Array, hz: number): number {
  let [cos, sin] = [0, 0];
  for (const [index, sample] of samples.entries()) {
    const hann = 0.5 - 0.5 * Math.cos((2 * Math.PI * index) / samples.length);
    const angle = (2 * Math.PI * hz * index) / sampleHz;
    cos += hann * sample * Math.cos(angle);
    sin += hann * sample * Math.sin(angle);
  }
  return (4 * Math.hypot(cos, sin)) / samples.length;
}

/** Frequencies that stand out in a stretch of sound, within 15 dB of the strongest, lowest first, Hz. */
export function partialsIn(samples: Float32Array): number[] {
  const stepHz = 5;
  const bins = Array.from({ length: 8_000 / stepHz }, (_, index) => index * stepHz);
  const strengths = bins.map((hz) => strengthAt(samples, hz));
  const least = Math.max(...strengths) * 10 ** (-15 / 20);
  return bins.filter((_, index) => {
    const [before = 0, here = 0, after = 0] = strengths.slice(index - 1, index + 2);
    return index > 0 && here >= least && here > before && here >= after;
  });
}
