import { refusal } from '#store/copy/refusal.ts';

const mb = 1_048_576;

/** What a file of ours may hold at most. Everything is counted on what really comes out of it. */
export const limits = {
  headerBytes: 65_536,
  /** The file itself, without and with pictures: 2,500 of the largest and more. */
  fileBytes: 64 * mb,
  fileBytesWithPhotos: 1_024 * mb,
  /** Unpacked. */
  outBytes: 256 * mb,
  outBytesWithPhotos: 1_280 * mb,
  /** Unpacked bytes for each packed one; our own records come to about 20. */
  outPerByte: 200,
  outBytesFree: 16 * mb,
  lineBytes: 16 * mb,
  photoBytes: 4 * mb,
  records: 300_000,
  depth: 14,
  textLength: 10_000,
  /** Time to read one file. */
  readMs: 300_000,
  /** Rounds of the key derivation: fewer is no lock, more would hang the phone. */
  leastRounds: 600_000,
  mostRounds: 10_000_000,
} as const;

const forbiddenKeys = new Set(['__proto__', 'constructor', 'prototype']);

/** Nesting of a JSON text, counted before anything is built from it. */
export function depthOf(text: string): number {
  let depth = 0;
  let deepest = 0;
  let isInText = false;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (isInText) {
      if (code === 0x5c) at += 1;
      else if (code === 0x22) isInText = false;
    } else if (code === 0x22) isInText = true;
    else if (code === 0x7b || code === 0x5b) {
      depth += 1;
      if (depth > deepest) deepest = depth;
    } else if (code === 0x7d || code === 0x5d) depth -= 1;
  }
  return deepest;
}

/** What a JSON text says. Refuses nesting, names and texts that no logbook writes. */
export function parsed(text: string): unknown {
  if (depthOf(text) > limits.depth) throw refusal('not-allowed', 'Something is nested too deep.');
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw refusal('not-allowed', 'A line is not written as it should be.');
  }
  walk(value);
  return value;
}

function walk(value: unknown): void {
  if (typeof value === 'string' && value.length > limits.textLength) {
    throw refusal('not-allowed', 'A text is far too long.');
  }
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw refusal('not-allowed', 'A number is not a number.');
  }
  if (typeof value !== 'object' || value === null) return;
  if (Array.isArray(value)) {
    for (const part of value) walk(part);
    return;
  }
  for (const [key, part] of Object.entries(value)) {
    if (forbiddenKeys.has(key)) throw refusal('not-allowed', `A field is called ${key}.`);
    walk(part);
  }
}
