import type { Settings } from '#model/settings.ts';

/** Where a finger came down, from the middle of what it aimed at, CSS px. */
export interface Tap {
  dxPx: number;
  dyPx: number;
}

/** What these gloves need of the keys. */
export interface GloveFit {
  /** Side of a square key that 96 in 100 such taps hit, CSS px. */
  neededPx: number;
  /** Taps that would have missed a key of the usual size. */
  missed: number;
  keySize: Settings['keySize'];
}

/** Side of the lesser keys, CSS px. */
const sidePx = { usual: 72, large: 96, largest: 112 } as const;

/** 96 % of a normal spread lie within this many standard deviations, from side to side: the effective width of ISO 9241-411 (from memory). */
const effectiveWidth = 4.133;

/**
 * The key size for a glove that tapped like this. The spread is taken around the mark, not around
 * the taps' own middle: a glove that always lands too low needs the larger key as well.
 */
export function gloveFit(taps: readonly Tap[]): GloveFit {
  const spread = (of: (tap: Tap) => number) =>
    Math.sqrt(taps.reduce((sum, tap) => sum + of(tap) ** 2, 0) / Math.max(1, taps.length));
  const neededPx =
    effectiveWidth *
    Math.max(
      spread((tap) => tap.dxPx),
      spread((tap) => tap.dyPx),
    );
  const half = sidePx.usual / 2;
  const missed = taps.filter((tap) => Math.max(Math.abs(tap.dxPx), Math.abs(tap.dyPx)) > half);
  return { neededPx, missed: missed.length, keySize: smallestFor(neededPx) };
}

function smallestFor(neededPx: number): Settings['keySize'] {
  if (neededPx <= sidePx.usual) return 'usual';
  return neededPx <= sidePx.large ? 'large' : 'largest';
}
