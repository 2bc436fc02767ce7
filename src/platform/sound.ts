import {
  alarmTone,
  type Due,
  loggedTone,
  type Ring,
  readyTone,
  ringsOf,
  type Tone,
  wrongWayTone,
} from '#platform/tones.ts';
import { type Voice, voiceAt } from '#platform/voice.ts';

/** Where the music of the place plays; null: nobody was asked. */
export type Music = 'this-phone' | 'elsewhere' | 'none' | null;

/** What the ear hears: three sounds, and nothing while nobody keeps sound at hand. */
export interface Sound {
  /**
   * Keeps sound at hand, waking it at presses and when the page is seen. `tell` hears whether it can
   * play now. Returns how to let go.
   */
  canSound(tell: (can: boolean) => void, music: Music): () => void;
  /**
   * The places that will be ready, in place of those armed before. Each rings at its time and again
   * until it is hushed, at least ten minutes, by no timer of ours. While sound cannot play nothing is
   * armed: arm again when told that it can.
   */
  arm(places: readonly Due[]): void;
  /** Somebody came: this place rings no more. */
  hush(place: number): void;
  /** The ready sound of a place, now. */
  ready(place: number): void;
  /** Stored: one short tick. */
  logged(): void;
  /** Refused: a low double. */
  wrongWay(): void;
}

/** What wakes sound where a browser waits for a hand: the HTML Standard's activating events, and a touch coming down. */
const hands = ['pointerdown', 'pointerup', 'touchend', 'keydown'] as const;
/** A word that is wrong for a moment would be read as an alarm: sound has this long to wake. */
const wakingMs = 500;

/** A voice that begins at this very instant has begun too late: its first ramp would be cut. */
const leadSec = 0.02;

/** What was armed for one place, on the clock of the context. */
interface Alarm {
  place: number;
  rings: readonly Ring[];
  voice: Voice;
}

let audio: AudioContext | null = null;
let holders = 0;
let alarms: Alarm[] = [];

/** The device's own speaker. */
export const deviceSound: Sound = {
  canSound(tell, music) {
    if (!('AudioContext' in window)) {
      tell(false);
      return () => {};
    }
    audio ??= new AudioContext();
    const context = audio;
    holders += 1;
    fitAround(music);
    const report = () => tell(context.state === 'running');
    const wake = () => void context.resume().catch(() => {});
    const waking = setTimeout(report, wakingMs);
    context.addEventListener('statechange', report);
    for (const hand of hands) document.addEventListener(hand, wake, true);
    document.addEventListener('visibilitychange', wake);
    wake();
    return () => {
      clearTimeout(waking);
      context.removeEventListener('statechange', report);
      for (const hand of hands) document.removeEventListener(hand, wake, true);
      document.removeEventListener('visibilitychange', wake);
      holders -= 1;
      if (holders === 0) rest(context);
    };
  },
  arm(places) {
    const freeAtSec = disarm();
    const context = playing();
    if (!context) return;
    const now = context.currentTime;
    const rings = ringsOf(places, Math.max(leadSec, freeAtSec - now));
    for (const { place } of places) {
      const own = rings.filter((ring) => ring.place === place);
      if (own.length === 0) continue;
      const voice = voiceAt(context, alarmTone(place, own), now);
      alarms.push({ place, voice, rings: own.map((ring) => onClock(ring, now)) });
    }
  },
  hush(place) {
    const now = audio?.currentTime ?? 0;
    for (const alarm of alarms) if (alarm.place === place) alarm.voice.stop(now);
    alarms = alarms.filter((alarm) => alarm.place !== place);
  },
  ready: (place) => play(readyTone(place)),
  logged: () => play(loggedTone),
  wrongWay: () => play(wrongWayTone),
};

/** The context, if it is kept at hand and can be heard. */
function playing(): AudioContext | null {
  return holders > 0 && audio?.state === 'running' ? audio : null;
}

function play(tone: Tone): void {
  const context = playing();
  if (context) voiceAt(context, tone, context.currentTime + leadSec);
}

/** Takes back what was armed. A ring that has begun is heard to its end; returns when the last one ends. */
function disarm(): number {
  const now = audio?.currentTime ?? 0;
  const ends = alarms.map(({ rings, voice }) => {
    const ring = rings.find(({ fromSec, untilSec }) => fromSec <= now && now < untilSec);
    const endSec = ring?.untilSec ?? now;
    voice.stop(endSec);
    return endSec;
  });
  alarms = [];
  return Math.max(0, ...ends);
}

function onClock(ring: Ring, startSec: number): Ring {
  return {
    ...ring,
    fromSec: ring.fromSec + startSec,
    untilSec: ring.untilSec + startSec,
  };
}

/** Nobody needs sound: a context that runs on would keep the speaker awake, and other music away. */
function rest(context: AudioContext): void {
  disarm();
  fitAround(null);
  context.suspend().catch(() => {});
}

/**
 * How sound gets on with other sound, where a browser lets a page say: over the music of this
 * device, or as the only one, which the silent switch does not mute.
 */
function fitAround(music: Music): void {
  const { audioSession } = navigator as Navigator & { audioSession?: { type: string } };
  if (!audioSession) return;
  if (music === null) audioSession.type = 'auto';
  else audioSession.type = music === 'this-phone' ? 'transient' : 'playback';
}
