import { describe, expect, test } from 'vitest';
import {
  alarmTone,
  loggedTone,
  readyTone,
  ringsOf,
  type Tone,
  toneSec,
  wrongWayTone,
} from '#platform/tones.ts';
import { heardOf, partialsIn, pulsesIn, riseMs, sampleHz } from '../hands/ear.ts';
import { expectWithin } from '../hands/within.ts';

// Every sound is rendered by the browser without a speaker, and measured as samples.

/** The steady middle of the first pulse. */
async function middleOf(tone: Tone): Promise<Float32Array> {
  const samples = await heardOf(toneSec(tone) + 0.2, [tone, 0.1]);
  const [pulse] = pulsesIn(samples);
  if (!pulse) throw new Error('Nothing was heard.');
  const edgeMs = tone.rampSec * 1_000 + 2;
  const perMs = sampleHz / 1_000;
  return samples.subarray((pulse.fromMs + edgeMs) * perMs, (pulse.untilMs - edgeMs) * perMs);
}

describe('the ready sound', () => {
  test.each([1, 2, 3])('of mould %i is that many pulses of 180 ms, 120 ms apart', async (place) => {
    const tone = readyTone(place);
    const samples = await heardOf(toneSec(tone) + 0.3, [tone, 0.1]);
    const pulses = pulsesIn(samples);
    expect(pulses).toHaveLength(place);
    for (const [index, { fromMs, untilMs }] of pulses.entries()) {
      expectWithin(fromMs, 100 + index * 300, 3);
      expectWithin(untilMs - fromMs, 180, 4);
    }
  });

  // IEC 60601-1-8 (from memory): fundamental 150-1000 Hz, at least four harmonics in 300-4000 Hz,
  // all within 15 dB. MIL-STD-1472H (from memory) would rather have 500-2000 Hz.
  test('has its fundamental between 500 and 1000 Hz and four harmonics below 4 kHz', async () => {
    const partials = partialsIn(await middleOf(readyTone(1)));
    const [fundamental = 0, ...harmonics] = partials;
    expectWithin(fundamental, 660, 5);
    expect(harmonics.filter((hz) => hz < 4_000)).toHaveLength(4);
    for (const [index, hz] of harmonics.entries()) expectWithin(hz, 660 * (index + 2), 5);
  });

  test('rises and falls over at least 20 ms', async () => {
    const samples = await heardOf(0.5, [readyTone(1), 0.1]);
    const [pulse] = pulsesIn(samples);
    if (!pulse) throw new Error('Nothing was heard.');
    // A straight ramp of 20 ms takes 16 ms from a tenth to nine tenths.
    expect(riseMs(samples, pulse)).toBeGreaterThanOrEqual(16);
    const backwards = samples.toReversed();
    const [mirrored] = pulsesIn(backwards);
    expect(mirrored && riseMs(backwards, mirrored)).toBeGreaterThanOrEqual(16);
  });

  test('is never cut off at full strength', async () => {
    const samples = await heardOf(0.5, [readyTone(1), 0.1]);
    const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    expect(peak).toBeLessThan(1);
    expect(peak).toBeGreaterThan(0.8);
  });
});

describe('the rings of a mould', () => {
  test('come at zero, after 3 s, then every 15 s, for ten minutes or longer', () => {
    const froms = ringsOf([{ place: 1, inMs: 60_000 }]).map(({ fromSec }) => fromSec);
    expect(froms.slice(0, 4)).toEqual([60, 63, 78, 93]);
    for (const [index, from] of froms.slice(2).entries()) {
      expect(from - (froms[index + 1] ?? 0)).toBeCloseTo(15);
    }
    expect(froms.at(-1)).toBeGreaterThanOrEqual(60 + 600);
  });

  test('begin half as strong as they go on: 6 dB', async () => {
    const rings = ringsOf([{ place: 2, inMs: 500 }]).slice(0, 2);
    const pulses = pulsesIn(await heardOf(5, [alarmTone(2, rings), 0]));
    expect(pulses).toHaveLength(4);
    const [first, second, third, fourth] = pulses.map(({ peak }) => peak);
    expectWithin(20 * Math.log10((third ?? 0) / (first ?? 1)), 6.02, 0.2);
    expect(second).toBeCloseTo(first ?? 0, 2);
    expect(fourth).toBeCloseTo(third ?? 0, 2);
  });

  test('of a mould that is long ready go on in their beat, and end after ten minutes', () => {
    expect(ringsOf([{ place: 1, inMs: -20_000 }])[0]?.fromSec).toBeCloseTo(13);
    expect(ringsOf([{ place: 1, inMs: -11 * 60_000 }])).toEqual([]);
  });

  test('of three moulds filled from one load can each be counted, the first at zero', async () => {
    const dues = [1, 2, 3].map((place) => ({ place, inMs: 1_000 }));
    const rings = ringsOf(dues);
    const sounds = [1, 2, 3].map((place) => {
      const own = rings.filter((ring) => ring.place === place);
      return [alarmTone(place, own), 0] as const;
    });
    const pulses = pulsesIn(await heardOf(7, ...sounds));
    // In the first 3 s after zero: 1, then 2, then 3 pulses, each group behind a longer pause.
    const groups: number[] = [];
    let untilMs = Number.NEGATIVE_INFINITY;
    for (const pulse of pulses) {
      if (pulse.fromMs - untilMs > 200) groups.push(0);
      groups.push((groups.pop() ?? 0) + 1);
      untilMs = pulse.untilMs;
    }
    expect(groups).toEqual([1, 2, 3, 1, 2, 3]);
    expectWithin(pulses[0]?.fromMs ?? 0, 1_000, 5);
  });

  test('never lie over each other, whenever moulds come ready', () => {
    for (let apartMs = 0; apartMs <= 15_000; apartMs += 130) {
      const rings = ringsOf([
        { place: 3, inMs: 5_000 },
        { place: 2, inMs: 5_000 + apartMs },
        { place: 1, inMs: 6_000 },
      ]);
      for (const [index, ring] of rings.slice(1).entries()) {
        expect(ring.fromSec).toBeGreaterThanOrEqual((rings[index]?.untilSec ?? 0) + 0.25);
      }
      expect(rings).toHaveLength(3 * 42);
    }
  });
});

// MIL-STD-1472H (from memory): 250-8000 Hz; at most four signals if each must be told apart.
test('the three sounds are told apart by pitch, and by length or count', async () => {
  const tones = [readyTone(1), loggedTone, wrongWayTone];
  const pitches: number[] = [];
  const shapes: string[] = [];
  for (const tone of tones) {
    const samples = await heardOf(toneSec(tone) + 0.3, [tone, 0.1]);
    const pulses = pulsesIn(samples);
    const [first] = pulses;
    if (!first) throw new Error('Nothing was heard.');
    expect(riseMs(samples, first)).toBeGreaterThanOrEqual(15);
    shapes.push(`${pulses.length} x ${Math.round((first.untilMs - first.fromMs) / 20) * 20} ms`);
    pitches.push(tone.fundamentalHz);
  }
  expect(new Set(shapes).size).toBe(3);
  const [low = 0, middle = 0, high = 0] = pitches.toSorted((a, b) => a - b);
  expect(low).toBeGreaterThanOrEqual(250);
  // A musical fifth or more lies between each two: nobody has to have an ear for it.
  expect(middle / low).toBeGreaterThanOrEqual(1.5);
  expect(high / middle).toBeGreaterThanOrEqual(1.5);
  expect(partialsIn(await middleOf(wrongWayTone))[0]).toBeLessThan(300);
});
